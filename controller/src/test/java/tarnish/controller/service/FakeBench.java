package tarnish.controller.service;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal;

/** A bench that follows a script: requests move it between a few fixed scenes. */
public final class FakeBench implements Bench {
  final List<Request> submitted = new CopyOnWriteArrayList<>();
  final List<String> started = new CopyOnWriteArrayList<>();
  final FakeJournal journal = new FakeJournal();

  final Changes changes = new Changes(1000);
  final AuditTrail audit = new AuditTrail();

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

  /** As the workshop of a real bench would: empty if taken. */
  Optional<String> start(String by) {
    if (scene != Scene.IDLE) {
      return Optional.of("A batch is already running.");
    }
    started.add(by);
    scene = Scene.RUNNING;
    return Optional.empty();
  }

  @Override
  public Changes changes() {
    return changes;
  }

  @Override
  public AuditTrail audit() {
    return audit;
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
