package tarnish.controller.fuzz;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The short version of {@code .ci/fuzz}, and every input that it once found. */
class FuzzedParsersTest {
  private static final long SEED = Long.getLong("seed", 20261125L);

  /** One for each thousandth of the share: reading YAML is slow. */
  private static final int TRIALS_PER_SHARE = 30;

  private static final Path FINDS = Path.of("src/test/resources/tarnish/controller/fuzz");

  @ParameterizedTest
  @EnumSource(Target.class)
  void noInputBreaksAParser(Target target) {
    SplittableRandom random = new SplittableRandom(SEED);
    List<byte[]> seeds = target.seeds();
    for (int i = 0; i < TRIALS_PER_SHARE * target.share; i++) {
      byte[] input = seeds.get(random.nextInt(seeds.size())).clone();
      for (int change = random.nextInt(4); change > 0; change--) {
        input = changed(random, input);
      }
      trial(target, input, "seed " + SEED + ", trial " + i);
    }
  }

  /** Files are named after their target, a hyphen, and what was wrong with them. */
  @Test
  void noInputThatOnceBrokeAParserDoesItAgain() throws IOException {
    try (Stream<Path> files = Files.list(FINDS)) {
      for (Path file : files.filter(it -> it.toString().endsWith(".bin")).sorted().toList()) {
        String name = file.getFileName().toString();
        Target target =
            Target.valueOf(name.substring(0, name.indexOf('-')).toUpperCase(java.util.Locale.ROOT));
        trial(target, Files.readAllBytes(file), name);
      }
    }
  }

  private static void trial(Target target, byte[] input, String which) {
    try {
      target.trial.with(input);
    } catch (Exception | AssertionError | StackOverflowError e) {
      throw new AssertionError(target + ", " + which + ": " + Arrays.toString(input), e);
    }
  }

  private static byte[] changed(SplittableRandom random, byte[] bytes) {
    if (bytes.length == 0) {
      return new byte[] {(byte) random.nextInt(256)};
    }
    int at = random.nextInt(bytes.length);
    int to = StrictMath.min(bytes.length, at + 1 + random.nextInt(8));
    return switch (random.nextInt(5)) {
      case 0 -> joined(bytes, at, new byte[] {(byte) random.nextInt(256)}, at + 1);
      case 1 -> joined(bytes, at, new byte[0], to);
      case 2 -> joined(bytes, at, new byte[] {(byte) random.nextInt(256)}, at);
      case 3 -> joined(bytes, to, new byte[0], at);
      default -> joined(bytes, at, new byte[0], bytes.length);
    };
  }

  private static byte[] joined(byte[] bytes, int headEnd, byte[] between, int tailStart) {
    int tail = bytes.length - tailStart;
    byte[] all = new byte[headEnd + between.length + tail];
    System.arraycopy(bytes, 0, all, 0, headEnd);
    System.arraycopy(between, 0, all, headEnd, between.length);
    System.arraycopy(bytes, tailStart, all, headEnd + between.length, tail);
    return all;
  }
}
