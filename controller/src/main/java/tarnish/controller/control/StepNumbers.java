package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.quantity.Unit;

/** The steps whose numbers a person may change now, for those outside. */
public final class StepNumbers {
  private StepNumbers() {}

  /**
   * One number.
   *
   * @param word as in a recipe file
   * @param value in SI units
   * @param factor SI units of one {@code unit}; °C are 1 and shifted by 273.15
   */
  public record Number(String word, double value, String printed, String unit, double factor) {}

  /** One step; {@code now} for the soak under way, of which only the time may grow. */
  public record Open(int position, String title, boolean now, List<Number> numbers) {}

  public static List<Open> open(ControlState state) {
    List<Open> open = new ArrayList<>();
    Program program = state.program();
    int now = state.stepPosition();
    for (int at = now; at < program.size(); at++) {
      if (program.at(at) instanceof Instruction.Do doing) {
        boolean begun = at == now && state.run() != null;
        List<Number> numbers = numbers(StepValues.of(doing.step()));
        if (begun) {
          boolean soaking = state.run() instanceof SoakRun;
          numbers =
              soaking ? numbers.stream().filter(n -> n.word().equals("for")).toList() : List.of();
        }
        if (!numbers.isEmpty()) {
          open.add(new Open(at, doing.step().common().title(), begun, numbers));
        }
      }
    }
    return open;
  }

  /** Every number of every step, as a text that differs whenever one of them does. */
  public static String all(ControlState state) {
    StringBuilder text = new StringBuilder();
    for (int at = 0; at < state.program().size(); at++) {
      if (state.program().at(at) instanceof Instruction.Do doing) {
        text.append(at).append(doing.step());
      }
    }
    return text.toString();
  }

  private static List<Number> numbers(StepValues values) {
    List<Number> numbers = new ArrayList<>();
    for (String word : values.words()) {
      Unit unit = word.equals("for") ? Unit.HOUR : values.unit(word);
      double factor =
          switch (unit) {
            case HOUR -> 3600;
            case KELVIN_PER_MINUTE -> 1 / 60.0;
            case MILLIBAR -> 100;
            default -> 1;
          };
      numbers.add(
          new Number(word, values.value(word), values.printed(word), unit.symbol(), factor));
    }
    return numbers;
  }
}
