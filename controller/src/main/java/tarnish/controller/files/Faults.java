package tarnish.controller.files;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;
import tarnish.shared.quantity.NearestWord;
import tarnish.shared.quantity.NotAQuantity;

/** Collects what is wrong with one file. The same fault at the same place is kept once. */
final class Faults {
  /** Nobody reads more, and a file of another kind would give thousands. */
  private static final int MOST = 100;

  private record Found(Place place, String message) {}

  private final String file;
  private final Set<Found> found = new LinkedHashSet<>();

  Faults(String file) {
    this.file = file;
  }

  void add(Place place, String found, String expected) {
    addMessage(place, "found " + found + ", expected " + expected);
  }

  void add(Place place, NotAQuantity wrong) {
    add(place, wrong.found(), wrong.expected());
  }

  /** A word that is not known here, with the one that was probably meant. */
  void addUnknown(Place place, String kind, String word, Collection<String> known) {
    String expected = "one of " + String.join(", ", known);
    String meant = NearestWord.to(word, known).map(w -> "; did you mean '" + w + "'?").orElse("");
    add(place, kind + " '" + shortened(word) + "'", expected + meant);
  }

  private void addMessage(Place place, String message) {
    if (found.size() < MOST) {
      // A quoted piece of the file may hold line breaks; a message is one line.
      found.add(new Found(place, message.replaceAll("[\\p{Cc}\\p{Zl}\\p{Zp}]+", " ")));
    }
  }

  /** How many there are, to see whether something has added one. */
  int count() {
    return found.size();
  }

  boolean isEmpty() {
    return found.isEmpty();
  }

  /** All faults in the order of the file. */
  List<Fault> list() {
    List<Found> sorted = new ArrayList<>(found);
    sorted.sort((a, b) -> a.place.compareTo(b.place));
    return sorted.stream()
        .map(f -> new Fault(file, f.place.line(), f.place.column(), f.message))
        .toList();
  }

  /** The value if nothing was wrong, else the faults. */
  <T> ReadResult<T> result(Supplier<T> value) {
    return isEmpty() ? ReadResult.good(value.get()) : ReadResult.faulty(list());
  }

  static String shortened(String text) {
    String oneLine = text.replaceAll("\\s+", " ");
    return oneLine.length() <= 60 ? oneLine : oneLine.substring(0, 60) + "…";
  }
}
