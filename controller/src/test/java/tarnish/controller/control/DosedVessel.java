package tarnish.controller.control;

import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;

/** A vessel whose pressure answers the oxygen valve, with uptake and reaction heat as told. */
final class DosedVessel {
  final ControlBench bench;
  double pressurePa = 20_000;
  double flowPaPerS = 1000;
  double uptakePaPerS;
  double excessK;
  double timeS;

  DosedVessel(Step... steps) {
    this(new TestRig(), steps);
  }

  DosedVessel(TestRig rig, Step... steps) {
    rig.pressureResolutionPa = 1;
    bench = new ControlBench(rig.build(), TestSteps.recipe(steps));
    bench.pressurePa(pressurePa).start();
  }

  boolean open() {
    return bench.isOn(Switch.OXYGEN);
  }

  /** The bench lives for one tick with the last outputs, then control sees it. */
  void tick(Request... requests) {
    pressurePa += ((open() ? flowPaPerS : 0) - uptakePaPerS) * ControlBench.TICK_S;
    timeS += ControlBench.TICK_S;
    bench.pressurePa(pressurePa);
    bench.set(Channel.SAMPLE_TEMPERATURE, 295 + excessK);
    bench.tick(requests);
  }

  void forSeconds(double seconds) {
    for (int i = 0; i < StrictMath.round(seconds / ControlBench.TICK_S); i++) {
      tick();
    }
  }

  /** Ticks until the valve stands as wanted; gives the time that took. */
  double untilOpen(boolean wanted, double atMostS) {
    double startS = timeS;
    while (open() != wanted && timeS - startS < atMostS) {
      tick();
    }
    return timeS - startS;
  }
}
