package tarnish.controller.files;

import java.util.List;

/** A piece of a file with its place: words, keys with values, or a list. */
sealed interface Node {
  Place place();

  /** What it is, for a message. */
  String words();

  /** Words or numbers; empty where the file says nothing after a key. */
  record Scalar(Place place, String text) implements Node {
    @Override
    public String words() {
      return text.isBlank() ? "nothing" : "'" + Faults.shortened(text) + "'";
    }
  }

  record Mapping(Place place, List<Entry> entries) implements Node {
    @Override
    public String words() {
      return "a group of keys";
    }
  }

  record Sequence(Place place, List<Node> items) implements Node {
    @Override
    public String words() {
      return "a list";
    }
  }

  record Entry(Place keyPlace, String key, Node value) {}
}
