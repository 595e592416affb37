package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;

/**
 * One tick in the middle of a batch, put together by hand, for what judges a tick by what was
 * remembered. Temperatures come in eighths of a kelvin, so that a limit can be met exactly.
 */
final class TickByHand {
  static final double ROOM_K = 295;

  private final Plan plan;
  private final Readings readings;
  private Outputs told = Outputs.OFF;

  TickByHand() {
    this(new TestRig());
  }

  TickByHand(TestRig rig) {
    RigDescription fine = inEighths(rig.build());
    plan = Plan.of(TestSteps.recipe(TestSteps.soak(ROOM_K, 1e5, 3)), fine);
    readings = new Readings(fine.resolutions());
    for (Channel channel : Channel.values()) {
      readings.good(channel, ControlBench.restValue(channel));
    }
  }

  private static RigDescription inEighths(RigDescription rig) {
    List<SensorDescription> sensors = new ArrayList<>();
    for (SensorDescription each : rig.sensors()) {
      boolean temperature = each.channel().kind() == Channel.Kind.TEMPERATURE;
      sensors.add(
          new SensorDescription(
              each.channel(),
              each.element(),
              temperature ? 0.125 : each.resolution(),
              each.rangeMin(),
              each.rangeMax(),
              each.standardUncertainty(),
              each.gainStandardUncertainty(),
              each.noise(),
              each.lagS()));
    }
    return rig.withSensors(sensors);
  }

  TickByHand told(Outputs outputs) {
    told = outputs;
    return this;
  }

  TickByHand heat(double sampleK, double ovenK) {
    readings.good(Channel.SAMPLE_TEMPERATURE, sampleK);
    readings.good(Channel.OVEN_TEMPERATURE, ovenK);
    return this;
  }

  TickByHand pressure(double pressurePa) {
    readings.good(Channel.VESSEL_PRESSURE, pressurePa);
    return this;
  }

  /** The workbench of a tick at that time, with outputs and readings as they stand now. */
  TickWork at(long millis) {
    TickWork before = new TickWork(plan, ControlState.initial(plan));
    before.outputs = told;
    TickWork work = new TickWork(plan, before.state());
    work.readings = readings;
    work.lastMillis = millis;
    work.tickS = ControlBench.TICK_S;
    return work;
  }

  TickWork at(long millis, HeatSigns heat) {
    TickWork work = at(millis);
    work.signs = new Signs(Plausibility.unseen(), heat, GasSigns.NONE);
    return work;
  }

  TickWork at(long millis, GasSigns gas) {
    TickWork work = at(millis);
    work.signs = new Signs(Plausibility.unseen(), HeatSigns.NONE, gas);
    return work;
  }
}
