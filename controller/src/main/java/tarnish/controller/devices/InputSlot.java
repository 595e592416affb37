package tarnish.controller.devices;

import tarnish.controller.devices.setup.InputSpec;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;

/** The newest that is known of one input. Written by its device's thread, read by any. */
final class InputSlot {
  /** A value outlives this many periods before it is stale. */
  private static final double PERIODS = 3;

  private static final Reading NO_DATA = new Reading.Bad(BadReason.NO_DATA);
  private static final Reading STALE = new Reading.Bad(BadReason.STALE);
  private static final Reading FAULT = new Reading.Bad(BadReason.DEVICE_FAULT);

  final InputSpec spec;
  private final long staleAfterNanos;
  private volatile Newest newest = new Newest(NO_DATA, "", 0);

  /** Touched by the device's thread only. */
  long dueNanos = Long.MIN_VALUE;

  private int spoilt;

  private record Newest(Reading reading, String raw, long atNanos) {}

  InputSlot(InputSpec spec, double answerWithinS) {
    this.spec = spec;
    this.staleAfterNanos = (long) ((PERIODS * spec.everyS() + answerWithinS) * 1e9);
  }

  /** One spoilt answer may be a spark on the line; the value then ages as if none had come. */
  void trouble(DeviceTrouble trouble, long nowNanos) {
    spoilt = trouble.kind() == DeviceTrouble.Kind.GARBLED ? spoilt + 1 : 0;
    if (trouble.kind() == DeviceTrouble.Kind.REFUSED || spoilt >= 2) {
      fail(trouble.getMessage(), nowNanos);
    }
  }

  void take(Device.Answer answer, long nowNanos) {
    spoilt = 0;
    newest = new Newest(answer.reading(), answer.raw(), nowNanos);
  }

  void fail(String what, long nowNanos) {
    newest = new Newest(FAULT, what, nowNanos);
  }

  Reading reading(long nowNanos) {
    Newest now = newest;
    boolean good = now.reading instanceof Reading.Good;
    return good && nowNanos - now.atNanos > staleAfterNanos ? STALE : now.reading;
  }

  String raw() {
    return newest.raw;
  }

  /** When the newest came; two equal times are one answer. */
  long atNanos() {
    return newest.atNanos;
  }
}
