package tarnish.controller.files;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.Event.ID;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;

/**
 * Reads YAML into {@link Node}s, leaving every value as the text that was written.
 *
 * <p>Works on the parser's events, not on its own tree, so that anchors, aliases, tags and deep
 * nesting are refused where they stand and before they can cost anything.
 */
final class NodeReader {
  /** A repeat in a repeat in a repeat, with questions inside, needs 16. */
  private static final int DEEPEST = 24;

  private static final LoadSettings SETTINGS =
      LoadSettings.builder()
          .setUseMarks(true)
          .setParseComments(false)
          .setCodePointLimit(FileText.LARGEST_BYTES)
          .build();

  /** Ends the reading of one file; its fault is already noted. */
  private static final class Refused extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Refused() {
      super(null, null, false, false);
    }
  }

  private final Iterator<Event> events;
  private final Faults faults;

  private NodeReader(String text, Faults faults) {
    // A lone carriage return is a line break in YAML too (1.2, 5.4), but the parser loses count of
    // columns at one that ends the file.
    this.events = new Parse(SETTINGS).parseString(text.replaceAll("\r\n?", "\n")).iterator();
    this.faults = faults;
  }

  /** The whole file as one node; empty, with a fault noted, if it cannot be read. */
  static Optional<Node> read(String text, Faults faults) {
    try {
      return Optional.of(new NodeReader(text, faults).document());
    } catch (Refused alreadyNoted) {
      return Optional.empty();
    } catch (MarkedYamlEngineException wrong) {
      Place place = wrong.getProblemMark().map(NodeReader::place).orElse(Place.START);
      faults.add(
          place, "what cannot be read as YAML", "keys and values (" + wrong.getProblem() + ")");
      return Optional.empty();
    } catch (YamlEngineException wrong) {
      faults.add(Place.START, "what cannot be read as YAML", "keys and values");
      return Optional.empty();
    }
  }

  private Node document() {
    next(); // The stream starts.
    Event start = next();
    if (start.getEventId() != ID.DocumentStart) {
      throw refused(start, "an empty file", "a recipe or rig file");
    }
    Node root = node(next(), 0);
    next(); // The document ends.
    Event end = next();
    if (end.getEventId() != ID.StreamEnd) {
      throw refused(end, "a second document", "one recipe or rig in a file");
    }
    return root;
  }

  private Node node(Event event, int depth) {
    refuseTricks(event);
    if (event instanceof ScalarEvent scalar) {
      return new Node.Scalar(place(event), scalar.getValue());
    }
    if (depth >= DEEPEST) {
      throw refused(event, "nesting deeper than " + DEEPEST + " levels", "less");
    }
    return event.getEventId() == ID.MappingStart ? mapping(event, depth) : sequence(event, depth);
  }

  private Node mapping(Event start, int depth) {
    List<Node.Entry> entries = new ArrayList<>();
    for (Event event = next(); event.getEventId() != ID.MappingEnd; event = next()) {
      Node key = node(event, depth + 1);
      Node value = node(next(), depth + 1);
      if (key instanceof Node.Scalar scalar) {
        entries.add(new Node.Entry(key.place(), scalar.text(), value));
      } else {
        faults.add(key.place(), key.words() + " as a key", "a word");
      }
    }
    return new Node.Mapping(place(start), List.copyOf(entries));
  }

  private Node sequence(Event start, int depth) {
    List<Node> items = new ArrayList<>();
    for (Event event = next(); event.getEventId() != ID.SequenceEnd; event = next()) {
      items.add(node(event, depth + 1));
    }
    return new Node.Sequence(place(start), List.copyOf(items));
  }

  private void refuseTricks(Event event) {
    if (event instanceof AliasEvent alias) {
      throw refused(event, "the alias '*" + alias.getAlias() + "'", "the value itself");
    }
    if (event instanceof NodeEvent node && node.getAnchor().isPresent()) {
      throw refused(event, "the anchor '&" + node.getAnchor().get() + "'", "the value alone");
    }
    Optional<String> tag = Optional.empty();
    if (event instanceof ScalarEvent scalar) {
      tag = scalar.getTag();
    } else if (event instanceof CollectionStartEvent collection) {
      tag = collection.getTag();
    }
    if (tag.isPresent()) {
      String written = tag.get().replace("tag:yaml.org,2002:", "!!");
      throw refused(event, "the tag '" + Faults.shortened(written) + "'", "the value alone");
    }
  }

  private Event next() {
    return events.next();
  }

  private Refused refused(Event event, String found, String expected) {
    faults.add(place(event), found, expected);
    return new Refused();
  }

  private static Place place(Event event) {
    return event.getStartMark().map(NodeReader::place).orElse(Place.START);
  }

  private static Place place(Mark mark) {
    return new Place(mark.getLine() + 1, mark.getColumn() + 1);
  }
}
