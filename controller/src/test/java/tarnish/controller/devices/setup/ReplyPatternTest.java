package tarnish.controller.devices.setup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ReplyPatternTest {
  /** The three forms of decimal numeric responses of IEEE 488.2, 8.7.2 to 8.7.4. */
  @ParameterizedTest
  @CsvSource({
    "12, 12",
    "+12, 12",
    "-7, -7",
    "'  4.0001', 4.0001",
    "-0.5, -0.5",
    ".25, 0.25",
    "3., 3",
    "1.5E+3, 1500",
    "-1.50E-2, -0.015",
    "1E3, 1000"
  })
  void theNumbersOfIeee488AreRead(String answer, double expected) {
    assertEquals(OptionalDouble.of(expected), new ReplyPattern("{value}").value(answer));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " ",
        "abc",
        "1,5",
        "0x10",
        "1e3",
        "NaN",
        "Infinity",
        "1 2",
        "--1",
        "1E",
        "1E+",
        ".",
        "9.91E+37",
        "9.9E37",
        "-9.9E37",
        "1.0f",
        "1d",
        "١٢",
        "1.5E+3000"
      })
  void whatIsNoNumberOrSaysThatThereIsNoneIsNotRead(String answer) {
    assertEquals(OptionalDouble.empty(), new ReplyPattern("{value}").value(answer));
  }

  @Test
  void theTextAroundTheNumberMustBeThere() {
    ReplyPattern pattern = new ReplyPattern("T1={value} C");
    assertEquals(OptionalDouble.of(-3.5), pattern.value("T1=-3.5 C\r"));
    assertEquals(OptionalDouble.empty(), pattern.value("T2=-3.5 C"));
    assertEquals(OptionalDouble.empty(), pattern.value("T1=-3.5"));
    assertEquals(OptionalDouble.empty(), pattern.value("T1=-3.5 C C"));
    assertEquals(OptionalDouble.empty(), pattern.value("xT1=-3.5 C"));
  }

  @Test
  void oneNumberOfManyIsPicked() {
    ReplyPattern second = new ReplyPattern("{any},{value},{any}");
    assertEquals(OptionalDouble.of(2), second.value("1,2,3,4"));
    assertEquals(OptionalDouble.empty(), second.value("1,2"));
    ReplyPattern stable = new ReplyPattern("{any} {value} g");
    assertEquals(OptionalDouble.of(4.0001), stable.value("ST    4.0001 g"));
  }

  @Test
  void aConfirmationFitsAsAWhole() {
    assertTrue(new ReplyPattern("OK").fits(" OK\r"));
    assertFalse(new ReplyPattern("OK").fits("NOT OK"));
    assertTrue(new ReplyPattern("OK {any}").fits("OK 12"));
  }

  @Test
  void noAnswerDoesHarm() {
    long seed = 20_261_125;
    RandomGenerator random = RandomGeneratorFactory.of("SplittableRandom").create(seed);
    ReplyPattern pattern = new ReplyPattern("T{any}={value} C{any}!");
    String letters = "T=0123456789.+-E C!{}\u0000\u00ff";
    for (int i = 0; i < 20_000; i++) {
      StringBuilder answer = new StringBuilder();
      for (int n = random.nextInt(20); n > 0; n--) {
        answer.append(letters.charAt(random.nextInt(letters.length())));
      }
      OptionalDouble value = pattern.value(answer.toString());
      assertTrue(
          value.isEmpty() || Double.isFinite(value.getAsDouble()),
          () -> "seed " + seed + ": " + answer);
    }
  }
}
