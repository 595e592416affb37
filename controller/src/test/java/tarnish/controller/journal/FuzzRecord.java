package tarnish.controller.journal;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import tarnish.controller.control.Request;
import tarnish.shared.reading.Channel;

/** Any bytes as what a damaged record may hold: packed ticks, summaries, requests. */
public final class FuzzRecord {
  private static final TickBuffer READ = new TickBuffer();
  private static final TickBuffer AGAIN = new TickBuffer();

  private FuzzRecord() {}

  /** Sound packed ticks, for a beginning. */
  public static byte[] soundTicks() {
    READ.count = 0;
    for (BatchMaker.Made tick : BatchMaker.ticks(5, 40, 0.1)) {
      READ.add(tick.millis(), tick.readings(), tick.outputs());
    }
    return TickCodec.encode(READ, 0, READ.count);
  }

  /** The same ticks as they stand in a sealed block. */
  public static byte[] soundBlock() {
    return Zip.pack(soundTicks());
  }

  /** Sound packed summaries. */
  public static byte[] soundSummaries() {
    soundTicks();
    return SummaryCodec.encode(READ, 16);
  }

  /** A request as it stands in the record. */
  public static byte[] soundRequest() {
    return RequestCodec.encode(new Request.Reset("Ann", "leak", "new seal"))
        .getBytes(StandardCharsets.UTF_8);
  }

  /** A request that the page may send comes out of the record as it went in. */
  public static void roundTrip(Request request) {
    if (!RequestCodec.decode(RequestCodec.encode(request)).equals(request)
        || RequestCodec.sentence(request).isEmpty()) {
      throw new AssertionError("recorded otherwise: " + request);
    }
  }

  public static void fuzzerTestOneInput(byte[] data) {
    if (data.length == 0) {
      return;
    }
    byte[] rest = Arrays.copyOfRange(data, 1, data.length);
    try {
      switch (data[0] & 3) {
        case 0 -> ticks(rest);
        case 1 -> ticks(Zip.unpack(rest));
        case 2 -> summaries(rest);
        default -> RequestCodec.decode(new String(rest, StandardCharsets.UTF_8));
      }
    } catch (JournalException expected) {
      if (expected.getMessage().isEmpty()) {
        throw new AssertionError("refused without words");
      }
    }
  }

  /** What can be read is the same when it is written and read again. */
  private static void ticks(byte[] packed) {
    READ.count = 0;
    TickCodec.decode(packed, READ);
    AGAIN.count = 0;
    int n = READ.count;
    TickCodec.decode(TickCodec.encode(READ, 0, n), AGAIN);
    boolean same =
        n == AGAIN.count
            && Arrays.equals(READ.millis, 0, n, AGAIN.millis, 0, n)
            && Arrays.equals(READ.switches, 0, n, AGAIN.switches, 0, n)
            && Arrays.equals(READ.heaterPerMille, 0, n, AGAIN.heaterPerMille, 0, n);
    for (int i = 0; i < Channel.COUNT; i++) {
      same &= Arrays.equals(READ.steps[i], 0, n, AGAIN.steps[i], 0, n);
      same &= Arrays.equals(READ.quality[i], 0, n, AGAIN.quality[i], 0, n);
    }
    if (!same) {
      throw new AssertionError("packed again, it differs");
    }
  }

  private static void summaries(byte[] packed) {
    SummaryCodec.Reader reader = SummaryCodec.reader(packed);
    while (reader.next() != null) {
      // Each must be readable or refused.
    }
  }
}
