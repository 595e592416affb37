package tarnish.shared.quantity;

import java.util.Arrays;
import java.util.List;

/** What a quantity is of. Each has a closed list of units; see {@link Unit}. */
public enum Dimension {
  TEMPERATURE("a temperature", "150 °C"),
  TEMPERATURE_DIFFERENCE("a temperature difference", "3 K"),
  TEMPERATURE_RATE("a temperature rate", "5 K/min"),
  PRESSURE("a pressure", "900 mbar"),
  PRESSURE_RATE("a pressure rate", "0.05 mbar/min"),
  TIME("a time", "1 h 30 min"),
  MASS("a mass", "4.000 g"),
  AMOUNT("an amount of substance", "0.5 mmol"),
  POWER("a power", "800 W"),
  ENERGY_PER_AMOUNT("an energy per amount", "80 kJ/mol"),
  VOLUME("a volume", "250 mL"),
  VOLUME_RATE("a volume rate", "0.3 L/s"),
  LENGTH("a length", "44 mm"),
  FRACTION("a fraction", "99.5 %"),
  SONIC_CONDUCTANCE("a sonic conductance", "0.002 dm³/(s·bar)"),
  PER_TEMPERATURE("a number per kelvin", "0.02 /K"),
  VOLTAGE("a voltage", "4.096 V"),
  CURRENT("a current", "4 mA"),
  RESISTANCE("a resistance", "150 Ω"),
  NUMBER("a plain number", "0.5");

  private final String words;
  private final String example;

  Dimension(String words, String example) {
    this.words = words;
    this.example = example;
  }

  /** With its article, e.g. "a pressure". */
  public String words() {
    return words;
  }

  /** A value as a person would write it. */
  public String example() {
    return example;
  }

  /** Its units, the preferred spelling of each. */
  public List<Unit> units() {
    return Arrays.stream(Unit.values()).filter(unit -> unit.dimension() == this).toList();
  }

  /** The dimension of the difference of two values of this one: only temperature has its own. */
  public Dimension ofDifference() {
    return this == TEMPERATURE ? TEMPERATURE_DIFFERENCE : this;
  }
}
