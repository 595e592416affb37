package tarnish.controller.instruments;

import java.util.EnumMap;
import java.util.Map;
import java.util.function.LongSupplier;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;
import tarnish.sim.SimulatedRig;

/**
 * The bench in equations as several instruments see it: one plant, carried on with the clock
 * whenever one of them is asked. Each instrument drops its own outputs when nobody has given it an
 * order for a while. Any thread.
 */
public final class PretendedBench {
  /** An instrument's own watchdog on its outputs. */
  private static final long WATCHDOG_NANOS = 2_000_000_000L;

  private static final double LEAST_STEP_S = 0.02;

  private final SimulatedRig plant;
  private final Readings readings;
  private final LongSupplier clock;
  private final Map<Switch, Long> orderedNanos = new EnumMap<>(Switch.class);
  private long carriedNanos;
  private Outputs outputs = Outputs.OFF;

  public PretendedBench(RigDescription rig, SimulatedRig plant, LongSupplier nanoClock) {
    this.plant = plant;
    this.readings = new Readings(rig.resolutions());
    this.clock = nanoClock;
    this.carriedNanos = nanoClock.getAsLong();
    plant.read(readings);
  }

  /** The value in SI units, or NaN where the pretended sensor has none. */
  synchronized double value(Channel channel) {
    carryOn();
    return readings.isGood(channel) ? readings.value(channel) : Double.NaN;
  }

  synchronized void set(Switch which, boolean on) {
    carryOn();
    orderedNanos.put(which, clock.getAsLong());
    outputs = outputs.with(which, on);
    plant.write(withHeaterDuty());
  }

  synchronized boolean isOn(Switch which) {
    carryOn();
    return outputs.isOn(which);
  }

  /** What is on now, for a test or a person. */
  public synchronized Outputs outputs() {
    carryOn();
    return outputs;
  }

  /** Runs {@code act} on the plant between two steps of it. */
  public synchronized void act(java.util.function.Consumer<SimulatedRig> act) {
    carryOn();
    act.accept(plant);
  }

  private void carryOn() {
    long now = clock.getAsLong();
    orderedNanos.forEach(
        (which, atNanos) -> {
          if (now - atNanos > WATCHDOG_NANOS) {
            outputs = outputs.with(which, false);
          }
        });
    double seconds = (now - carriedNanos) / 1e9;
    if (seconds >= LEAST_STEP_S) {
      plant.write(withHeaterDuty());
      plant.advance(seconds);
      plant.read(readings);
      carriedNanos = now;
    }
  }

  private Outputs withHeaterDuty() {
    return new Outputs(outputs.switches(), outputs.isOn(Switch.HEATER) ? 1000 : 0);
  }
}
