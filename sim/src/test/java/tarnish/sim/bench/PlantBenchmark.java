package tarnish.sim.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;
import tarnish.sim.SimulatedRig;
import tarnish.sim.TestBench;

/** How fast the plant runs: 14 days with heating, oxygen pulses and all readings at every tick. */
public final class PlantBenchmark {
  private static final double DAYS = 14;
  private static final long TICKS = (long) (DAYS * 86_400 / SimulatedRig.TICK_S);

  private PlantBenchmark() {}

  public static void main(String[] arguments) {
    for (int round = 0; round < 3; round++) {
      RigDescription rig = TestBench.rig();
      SimulatedRig bench = new SimulatedRig(rig, TestBench.copper(), 7);
      Readings readings = new Readings(rig.resolutions());
      Outputs hot = Outputs.of(300, Switch.HEATER);
      Outputs pulse = hot.with(Switch.OXYGEN, true);
      ThreadMXBean thread = ManagementFactory.getThreadMXBean();
      long startCpu = thread.getCurrentThreadCpuTime();
      long start = System.nanoTime();
      for (long tick = 0; tick < TICKS; tick++) {
        bench.write(tick % 7200 < 8 ? pulse : hot);
        bench.advance(SimulatedRig.TICK_S);
        bench.read(readings);
      }
      double wallS = (System.nanoTime() - start) * 1e-9;
      double cpuS = (thread.getCurrentThreadCpuTime() - startCpu) * 1e-9;
      System.out.printf(
          "%d ticks in %.2f s (%.2f s of processor): %.0f ns a tick, %.0f simulated s per s; ends at %s%n",
          TICKS, wallS, cpuS, wallS / TICKS * 1e9, DAYS * 86_400 / wallS, bench.truth());
    }
  }
}
