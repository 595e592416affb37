package tarnish.controller.files;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.NotAQuantity;
import tarnish.shared.quantity.Quantities;

/**
 * The values of one group of keys, each fetched by its key.
 *
 * <p>Whatever is wrong is noted in the {@link Faults} and a stand-in is returned: NaN for a number,
 * an empty text, the first of the words. No comparison with NaN is true, so one mistake is not
 * reported twice; the reader gives no value to anybody once a fault is noted.
 */
final class Fields {
  private static final Pattern WHOLE = Pattern.compile("[0-9]{1,9}");
  private static final Pattern COUNTED = Pattern.compile("([0-9]{1,9}) ([a-z]+)");
  private static final int LONGEST_TEXT = 200;
  private static final Estimate NO_ESTIMATE = Estimate.exact(0);

  private final String what;
  private final Place place;
  private final Faults faults;
  private final boolean usable;
  private final Map<String, Node.Entry> entries = new LinkedHashMap<>();

  /**
   * @param what the name of the group, for messages
   * @param known every key that may stand in it
   */
  Fields(Node node, String what, Faults faults, List<String> known) {
    this.what = what;
    this.place = node.place();
    this.faults = faults;
    this.usable = node instanceof Node.Mapping;
    if (node instanceof Node.Mapping mapping) {
      mapping.entries().forEach(entry -> take(entry, known));
    } else {
      faults.add(place, node.words(), what + " with the keys " + String.join(", ", known));
    }
  }

  /** A group that is missing; that it is missing has been told, so nothing more will be. */
  static Fields absent(String what, Place place, Faults faults) {
    return new Fields(what, place, faults);
  }

  private Fields(String what, Place place, Faults faults) {
    this.what = what;
    this.place = place;
    this.faults = faults;
    this.usable = false;
  }

  private void take(Node.Entry entry, List<String> known) {
    String key = entry.key();
    if (!known.contains(key)) {
      if (!key.isEmpty() && Character.isDigit(key.charAt(0))) {
        faults.add(
            entry.keyPlace(),
            "the number '" + Faults.shortened(key) + "' where a key belongs",
            "one of "
                + String.join(", ", known)
                + ": inside braces a comma ends a value, so write decimals with a point");
        return;
      }
      faults.addUnknown(entry.keyPlace(), "the unknown key", key, known);
      return;
    }
    Node.Entry first = entries.putIfAbsent(key, entry);
    if (first != null) {
      faults.add(
          entry.keyPlace(),
          "'" + key + "' a second time in " + what,
          "it once (first in line " + first.keyPlace().line() + ")");
    }
  }

  boolean has(String key) {
    return entries.containsKey(key);
  }

  /** Where the value of {@code key} stands, or the group if there is none. */
  Place placeOf(String key) {
    return has(key) ? entries.get(key).value().place() : place;
  }

  /** The value as written, in quotes, for a message. */
  String written(String key) {
    return has(key) ? entries.get(key).value().words() : "no '" + key + "'";
  }

  void fault(String key, String found, String expected) {
    faults.add(placeOf(key), found, expected);
  }

  /** The node of a required key, noting a fault if it is missing. */
  Optional<Node> node(String key, String example) {
    if (has(key)) {
      return Optional.of(entries.get(key).value());
    }
    if (usable) {
      faults.add(place, "no '" + key + "' in " + what, "'" + key + ": " + example + "'");
    }
    return Optional.empty();
  }

  Optional<Node> optionalNode(String key) {
    return Optional.ofNullable(entries.get(key)).map(Node.Entry::value);
  }

  private Optional<String> scalar(String key, String example, String expected) {
    Optional<Node> node = node(key, example);
    if (node.isEmpty()) {
      return Optional.empty();
    }
    if (node.get() instanceof Node.Scalar scalar && scalar.text().length() > LONGEST_TEXT) {
      String found = "a text of " + scalar.text().length() + " characters";
      faults.add(scalar.place(), found, expected);
      return Optional.empty();
    }
    if (node.get() instanceof Node.Scalar scalar && !scalar.text().isBlank()) {
      return Optional.of(scalar.text().strip());
    }
    faults.add(node.get().place(), node.get().words(), expected);
    return Optional.empty();
  }

  /** Free words, at most 200 characters on one line. */
  String text(String key, String example) {
    String text = scalar(key, example, "words, e.g. " + example).orElse("");
    if (text.contains("\n")) {
      fault(key, "more than one line", "one line of words, e.g. " + example);
      return "";
    }
    return text;
  }

  Optional<String> optionalText(String key) {
    return has(key) ? Optional.of(text(key, "First oxygen")) : Optional.empty();
  }

  double quantity(String key, Bound bound) {
    return quantity(key, bound, bound.dimension().example());
  }

  double quantity(String key, Bound bound, String example) {
    String expected = bound.dimension().words() + ", e.g. " + example;
    Optional<String> text = scalar(key, example, expected);
    return text.isEmpty() ? Double.NaN : quantityOf(key, text.get(), bound);
  }

  private double quantityOf(String key, String text, Bound bound) {
    try {
      return within(key, Quantities.parse(text, bound.dimension()), bound);
    } catch (NotAQuantity wrong) {
      faults.add(placeOf(key), wrong);
      return Double.NaN;
    }
  }

  private double within(String key, double value, Bound bound) {
    if (bound.allows(value)) {
      return value;
    }
    fault(key, written(key), bound.words());
    return Double.NaN;
  }

  OptionalDouble optionalQuantity(String key, Bound bound) {
    return has(key) ? OptionalDouble.of(quantity(key, bound)) : OptionalDouble.empty();
  }

  double quantityOr(String key, Bound bound, double otherwise) {
    return optionalQuantity(key, bound).orElse(otherwise);
  }

  /** A value with its standard uncertainty; both NaN-free stand-ins after a fault. */
  Estimate estimate(String key, Bound bound, String example) {
    Optional<String> text =
        scalar(key, example, "a value ± its standard uncertainty, e.g. " + example);
    if (text.isEmpty()) {
      return NO_ESTIMATE;
    }
    try {
      Estimate estimate = Quantities.parseEstimate(text.get(), bound.dimension());
      within(key, estimate.value(), bound);
      return estimate;
    } catch (NotAQuantity wrong) {
      faults.add(placeOf(key), wrong);
      return NO_ESTIMATE;
    }
  }

  /** A span, e.g. {@code 60 s to 30 min}; NaN to NaN after a fault. */
  Quantities.Range range(String key, Bound bound, String example) {
    Optional<String> text = scalar(key, example, "two values with 'to', e.g. " + example);
    Quantities.Range none = new Quantities.Range(Double.NaN, Double.NaN);
    if (text.isEmpty()) {
      return none;
    }
    try {
      Quantities.Range range = Quantities.parseRange(text.get(), bound.dimension());
      if (bound.allows(range.from()) && bound.allows(range.to())) {
        return range;
      }
      fault(key, written(key), "values, each " + bound.words());
    } catch (NotAQuantity wrong) {
      faults.add(placeOf(key), wrong);
    }
    return none;
  }

  /** One of a closed list of words. */
  <E> E word(String key, E[] values, Function<E, String> words) {
    List<String> known = List.of(values).stream().map(words).toList();
    Optional<String> text = scalar(key, known.get(0), "one of " + String.join(", ", known));
    for (E value : values) {
      if (text.isPresent() && words.apply(value).equals(text.get())) {
        return value;
      }
    }
    text.ifPresent(word -> faults.addUnknown(placeOf(key), "the unknown word", word, known));
    return values[0];
  }

  boolean yesNoOr(String key, boolean otherwise) {
    if (!has(key)) {
      return otherwise;
    }
    Optional<String> text = scalar(key, "yes", "yes or no");
    if (text.isPresent() && !text.get().equals("yes") && !text.get().equals("no")) {
      fault(key, written(key), "yes or no");
    }
    return text.isPresent() && text.get().equals("yes");
  }

  /**
   * A whole number of things that the key itself names, e.g. {@code cycles: 3}; 0 after a fault.
   */
  int count(String key, int min, int max) {
    String expected = "a whole number from " + min + " to " + max;
    Optional<String> text = scalar(key, String.valueOf(min), expected);
    if (text.isEmpty()) {
      return 0;
    }
    return countOf(key, WHOLE.matcher(text.get()).matches() ? text.get() : "", min, max, expected);
  }

  /**
   * A whole number with its word, e.g. {@code at most: 200 pulses}, without which the step might
   * never end; 0 after a fault.
   */
  int counted(String key, String word, int max, String example) {
    if (!has(key) && usable) {
      faults.add(
          place,
          "no '" + key + "' in " + what,
          "'" + key + ": " + example + "', or it might never end");
      return 0;
    }
    String expected = "a number of " + word + "s from 1 to " + max + ", e.g. " + example;
    Optional<String> text = scalar(key, example, expected);
    if (text.isEmpty()) {
      return 0;
    }
    Matcher matcher = COUNTED.matcher(text.get());
    boolean fits =
        matcher.matches() && (matcher.group(2).equals(word) || matcher.group(2).equals(word + "s"));
    return countOf(key, fits ? matcher.group(1) : "", 1, max, expected);
  }

  private int countOf(String key, String digits, int min, int max, String expected) {
    int count = digits.isEmpty() ? -1 : Integer.parseInt(digits);
    if (count < min || count > max) {
      fault(key, written(key), expected);
      return 0;
    }
    return count;
  }
}
