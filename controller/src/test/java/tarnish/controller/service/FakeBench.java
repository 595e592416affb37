package tarnish.controller.service;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal;

/** A bench that follows a script: requests move it between a few fixed scenes. */
public final class FakeBench implements Bench {
  final List<Request> submitted = new CopyOnWriteArrayList<>();
  final List<String> started = new CopyOnWriteArrayList<>();
  final FakeJournal journal = new FakeJournal();

  volatile ProofTests proofs;
  private volatile Scene scene;
  private volatile boolean queueFull;
  private volatile boolean broken;
  private volatile boolean still;
  private volatile long ticks = 100;

  public FakeBench(Scene scene) {
    this.scene = scene;
  }

  public void show(Scene next) {
    scene = next;
  }

  void fillQueue() {
    queueFull = true;
  }

  /** From now on every look at the status fails, as a defect would. */
  void breakDown() {
    broken = true;
  }

  /** From now on the control loop makes no tick any more. */
  public void standStill() {
    still = true;
  }

  @Override
  public Status status() {
    if (broken) {
      throw new IllegalStateException("secret inner detail");
    }
    if (!still) {
      ticks += 4;
    }
    return FakeStatus.of(scene, ticks);
  }

  @Override
  public boolean submit(Request request) {
    if (queueFull) {
      return false;
    }
    submitted.add(request);
    scene = scene.after(request);
    return true;
  }

  @Override
  public Optional<String> startBatch(String recipeText, String by) {
    if (scene != Scene.IDLE) {
      return Optional.of("A batch is already running.");
    }
    started.add(by);
    scene = Scene.RUNNING;
    return Optional.empty();
  }

  @Override
  public Map<String, String> recipes() {
    return Map.of(
        "copper", "title: Copper to copper(II) oxide\n",
        "barium", "title: Barium oxide to barium peroxide\n");
  }

  @Override
  public String checkRecipe(String recipeText) {
    return recipeText.contains("copper")
        ? "The recipe can be run on this rig.\n9 steps, about 19 h, oxygen needed 15.7 mmol"
        : "Line 3, column 5: found '20', expected a temperature with a unit, such as 20 °C";
  }

  @Override
  public List<Status.CourseLine> setpoints(int batch) {
    return List.of(
        new Status.CourseLine(0, 293.15),
        new Status.CourseLine(3000, 293.15),
        new Status.CourseLine(16_800, 523.15),
        new Status.CourseLine(20_000, 523.15));
  }

  @Override
  public Optional<ProofTests> proofTests() {
    return Optional.ofNullable(proofs);
  }

  @Override
  public Journal journal() {
    return journal;
  }
}
