package tarnish.controller.instruments;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Switch;

/**
 * A microcontroller board with a line protocol: {@code T1?} answers {@code T1=23.45}, {@code H=1}
 * switches and answers {@code OK}, anything else {@code WHAT?}.
 */
public final class PretendedBoard implements Instrument {
  private static final double CELSIUS_ZERO_K = 273.15;

  /** SCPI-1999's not a number. */
  private static final String NO_NUMBER = "9.91E+37";

  private static final Map<String, Channel> TEMPERATURES =
      Map.of("T1", Channel.SAMPLE_TEMPERATURE, "T2", Channel.OVEN_TEMPERATURE);
  private static final Map<String, Channel> CONTACTS =
      Map.of("STOP", Channel.EMERGENCY_STOP, "DOOR", Channel.DOOR);
  private static final Map<String, Switch> SWITCHES =
      Map.of("H", Switch.HEATER, "O", Switch.OXYGEN, "B", Switch.HEARTBEAT);

  private final PretendedBench bench;
  private final StringBuilder heard = new StringBuilder();

  public PretendedBoard(PretendedBench bench) {
    this.bench = bench;
  }

  @Override
  public byte[] hear(byte[] bytes) {
    heard.append(new String(bytes, StandardCharsets.ISO_8859_1));
    StringBuilder answers = new StringBuilder();
    for (int end = heard.indexOf("\n"); end >= 0; end = heard.indexOf("\n")) {
      answers.append(answer(heard.substring(0, end).strip())).append('\n');
      heard.delete(0, end + 1);
    }
    return answers.toString().getBytes(StandardCharsets.ISO_8859_1);
  }

  String answer(String line) {
    if (line.endsWith("?")) {
      return told(line.substring(0, line.length() - 1));
    }
    String[] order = line.split("=", -1);
    Switch which = SWITCHES.get(order[0]);
    if (which == null || order.length != 2 || !order[1].matches("[01]")) {
      return "WHAT?";
    }
    bench.set(which, order[1].equals("1"));
    return "OK";
  }

  private String told(String name) {
    if (TEMPERATURES.containsKey(name)) {
      double kelvin = bench.value(TEMPERATURES.get(name));
      return name
          + "="
          + (Double.isNaN(kelvin)
              ? NO_NUMBER
              : String.format(Locale.ROOT, "%+.2f", kelvin - CELSIUS_ZERO_K));
    }
    if (CONTACTS.containsKey(name)) {
      return name + "=" + (bench.value(CONTACTS.get(name)) > 0.5 ? 1 : 0);
    }
    return "WHAT?";
  }
}
