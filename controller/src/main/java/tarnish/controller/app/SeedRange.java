package tarnish.controller.app;

import java.util.List;
import java.util.function.LongFunction;
import java.util.stream.LongStream;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Seeds written as {@code 1..100} or {@code 7}. */
record SeedRange(long from, long to) {
  private static final long COUNT_MAX = 1_000_000;

  LongStream seeds() {
    return LongStream.rangeClosed(from, to);
  }

  long count() {
    return to - from + 1;
  }

  /** What comes of each seed, in their order, on all processors. */
  <T> List<T> each(LongFunction<T> trial, Progress progress) {
    return seeds().parallel().mapToObj(seed -> progress.counted(() -> trial.apply(seed))).toList();
  }

  /** Reads a range. */
  static final class Converter implements ITypeConverter<SeedRange> {
    @Override
    public SeedRange convert(String text) {
      String[] ends = text.split("\\.\\.", -1);
      try {
        long from = Long.parseLong(ends[0].trim());
        long to = ends.length == 1 ? from : Long.parseLong(ends[1].trim());
        if (ends.length <= 2 && from <= to && to - from < COUNT_MAX) {
          return new SeedRange(from, to);
        }
      } catch (NumberFormatException e) {
        // Said below.
      }
      throw new TypeConversionException(
          "'" + text + "' is no range of seeds; write one like 1..100, at most " + COUNT_MAX + ".");
    }
  }
}
