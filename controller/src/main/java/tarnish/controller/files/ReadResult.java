package tarnish.controller.files;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * What reading a file gave: a value, or every fault found in it, in the file's order.
 *
 * @param found the value; empty if there is any fault
 * @param faults empty if there is a value
 */
public record ReadResult<T>(Optional<T> found, List<Fault> faults) {
  public ReadResult {
    faults = List.copyOf(faults);
    if (found.isPresent() != faults.isEmpty()) {
      throw new IllegalArgumentException("need either a value or faults");
    }
  }

  static <T> ReadResult<T> good(T value) {
    return new ReadResult<>(Optional.of(value), List.of());
  }

  static <T> ReadResult<T> faulty(List<Fault> faults) {
    return new ReadResult<>(Optional.empty(), faults);
  }

  public boolean isGood() {
    return found.isPresent();
  }

  /**
   * The value.
   *
   * @throws IllegalStateException with all faults, one a line, if there is none
   */
  public T value() {
    return found.orElseThrow(
        () ->
            new IllegalStateException(
                faults.stream().map(Fault::toString).collect(Collectors.joining("\n"))));
  }

  <U> ReadResult<U> then(Function<T, ReadResult<U>> next) {
    return found.isPresent() ? next.apply(found.get()) : faulty(faults);
  }
}
