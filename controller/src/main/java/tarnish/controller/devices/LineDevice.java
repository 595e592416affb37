package tarnish.controller.devices;

import com.fazecast.jSerialComm.SerialPort;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import tarnish.controller.devices.DeviceTrouble.Kind;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.DeviceSpec.Lines;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputPlace;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.controller.devices.setup.ReplyPattern;

/**
 * An instrument that answers in lines of text over a serial port.
 *
 * <p>The library keeps saying that a port is open when its other end has vanished; only a read that
 * gives -1 or a write that gives less than all tells, so both count as a loss here.
 */
final class LineDevice implements Device {
  private static final int LONGEST_LINE = 256;

  private final Lines link;
  private final long answerNanos;
  private SerialPort port;

  private String sharedAsk = "";
  private String sharedAnswer = "";
  private long sharedNanos;

  LineDevice(DeviceSpec spec, Lines link) {
    this.link = link;
    this.answerNanos = (long) (spec.answerWithinS() * 1e9);
  }

  @Override
  public void open() throws DeviceTrouble {
    port = SerialPorts.open(link.line());
    forgetLateAnswers();
  }

  @Override
  public Answer ask(InputSpec input) throws DeviceTrouble {
    InputPlace.Question question = (InputPlace.Question) input.where();
    String answer = shared(question.ask(), (long) (input.everyS() * 0.5e9));
    OptionalDouble value = question.answer().value(answer);
    if (value.isEmpty()) {
      sharedAsk = "";
      throw new DeviceTrouble(
          Kind.GARBLED,
          "answered '"
              + shown(answer)
              + "' to '"
              + question.ask()
              + "', expected '"
              + question.answer()
              + "'");
    }
    return new Answer(input.scaling().value(value.getAsDouble()), shown(answer));
  }

  /** Inputs that are asked for in the same words share one answer. */
  private String shared(String ask, long youngNanos) throws DeviceTrouble {
    long now = System.nanoTime();
    if (!ask.equals(sharedAsk) || now - sharedNanos > youngNanos) {
      sharedAsk = "";
      sharedAnswer = exchange(ask);
      sharedAsk = ask;
      sharedNanos = now;
    }
    return sharedAnswer;
  }

  @Override
  public void order(OutputSpec output, int value) throws DeviceTrouble {
    if (output.where() instanceof OutputPlace.Order order) {
      confirmed(value != 0 ? order.on() : order.off(), order.answer());
    } else {
      OutputPlace.DutyOrder duty = (OutputPlace.DutyOrder) output.where();
      double number = duty.fullDuty() * value / 1000;
      String text = duty.order().replace("{value}", String.format(Locale.ROOT, "%.6g", number));
      confirmed(text, duty.answer());
    }
  }

  private void confirmed(String order, Optional<ReplyPattern> expected) throws DeviceTrouble {
    String answer = exchange(order);
    if (expected.isPresent() && !expected.get().fits(answer)) {
      throw new DeviceTrouble(
          Kind.GARBLED,
          "answered '"
              + shown(answer)
              + "' to the order '"
              + order
              + "', expected '"
              + expected.get()
              + "'");
    }
  }

  private String exchange(String text) throws DeviceTrouble {
    forgetLateAnswers();
    byte[] out = (text + link.end().letters()).getBytes(StandardCharsets.ISO_8859_1);
    if (port.writeBytes(out, out.length) != out.length) {
      throw new DeviceTrouble(Kind.LOST, "the line went dead while writing");
    }
    return readLine(text, System.nanoTime() + answerNanos);
  }

  private String readLine(String asked, long deadlineNanos) throws DeviceTrouble {
    String end = link.end().letters();
    StringBuilder line = new StringBuilder();
    byte[] buffer = new byte[64];
    while (System.nanoTime() < deadlineNanos) {
      int count = port.readBytes(buffer, buffer.length);
      if (count < 0) {
        throw new DeviceTrouble(Kind.LOST, "the line went dead while reading");
      }
      line.append(new String(buffer, 0, count, StandardCharsets.ISO_8859_1));
      int at = line.indexOf(end);
      if (at >= 0) {
        return line.substring(0, at);
      }
      if (line.length() > LONGEST_LINE) {
        throw new DeviceTrouble(
            Kind.GARBLED, "more than " + LONGEST_LINE + " characters without an end of line");
      }
    }
    if (line.length() > 0) {
      throw new DeviceTrouble(
          Kind.GARBLED,
          "only '" + shown(line.toString()) + "' came of an answer to '" + asked + "'");
    }
    throw new DeviceTrouble(Kind.SILENT, "no answer to '" + asked + "'");
  }

  @Override
  public void forgetLateAnswers() {
    byte[] buffer = new byte[256];
    for (int i = 0; i < 64 && port != null && port.bytesAvailable() > 0; i++) {
      port.readBytes(buffer, Math.min(buffer.length, port.bytesAvailable()));
    }
  }

  private static String shown(String text) {
    String printable = text.replaceAll("[^\\x20-\\x7E]", "·").strip();
    return printable.length() <= 60 ? printable : printable.substring(0, 60) + "…";
  }

  @Override
  public void close() {
    if (port != null) {
      port.closePort();
      port = null;
    }
  }
}
