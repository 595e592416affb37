package tarnish.controller.instruments;

import java.io.FileInputStream;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.concurrent.locks.LockSupport;

/** Carries bytes between a pretended instrument and one end of a pseudo-terminal, badly if told. */
public final class Wire {
  /** What is wrong with the wire or the instrument. */
  public enum Trouble {
    NONE,
    /** No answer at all. */
    SILENT,
    /** Every answer half a second late. */
    SLOW,
    /** Noise in place of every answer. */
    GARBAGE,
    /** Only the first half of every answer. */
    HALF,
    /** The last two bytes of every answer changed: a wrong check sum on Modbus. */
    WRONG_END
  }

  private static final long SLOW_NANOS = 500_000_000L;

  private final Instrument instrument;
  private final InputStream in;
  private final OutputStream out;
  private volatile Trouble trouble = Trouble.NONE;

  private Wire(Path end, Instrument instrument) throws IOException {
    this.instrument = instrument;
    this.in = new FileInputStream(end.toFile());
    this.out = new FileOutputStream(end.toFile());
  }

  /** Opens the far end and serves it until it vanishes. */
  static Wire open(Path end, Instrument instrument) throws IOException {
    Wire wire = new Wire(end, instrument);
    Thread thread = new Thread(wire::serve, "pretended instrument at " + end);
    thread.setDaemon(true);
    thread.start();
    return wire;
  }

  public static Wire toBoard(Path end, PretendedBench bench) throws IOException {
    return open(end, new PretendedBoard(bench));
  }

  public static Wire toUnit(Path end, PretendedBench bench) throws IOException {
    return open(end, new PretendedUnit(bench));
  }

  public void set(Trouble next) {
    trouble = next;
  }

  private void serve() {
    byte[] buffer = new byte[256];
    try (in;
        out) {
      for (int count = in.read(buffer); count >= 0; count = in.read(buffer)) {
        byte[] answer = instrument.hear(Arrays.copyOf(buffer, count));
        if (answer.length > 0) {
          out.write(spoilt(answer));
          out.flush();
        }
      }
    } catch (IOException vanished) {
      // The other end is gone, and so is this one.
    }
  }

  private byte[] spoilt(byte[] answer) {
    switch (trouble) {
      case SILENT -> {
        return Instrument.NOTHING;
      }
      case SLOW -> LockSupport.parkNanos(SLOW_NANOS);
      case GARBAGE -> {
        byte[] noise = answer.clone();
        for (int i = 0; i < noise.length - 1; i++) {
          noise[i] = (byte) (noise[i] * 31 + 177 + i);
        }
        return noise;
      }
      case HALF -> {
        return Arrays.copyOf(answer, answer.length / 2);
      }
      case WRONG_END -> {
        byte[] wrong = answer.clone();
        for (int i = Math.max(0, wrong.length - 2); i < wrong.length; i++) {
          wrong[i] ^= 0x55;
        }
        return wrong;
      }
      case NONE -> {
        return answer;
      }
    }
    return answer;
  }
}
