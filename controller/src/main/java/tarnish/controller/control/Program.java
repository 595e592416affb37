package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.recipe.Step;

/** A recipe's steps laid out in one line, with repeats as marks. */
public final class Program {
  private final List<Instruction> instructions;
  private final double rateBeforeFirstKPerS;

  private Program(List<Instruction> instructions, double rateBeforeFirstKPerS) {
    this.instructions = List.copyOf(instructions);
    this.rateBeforeFirstKPerS = rateBeforeFirstKPerS;
  }

  static Program of(List<Step> steps, double rampRateBeforeFirstKPerS) {
    List<Instruction> instructions = new ArrayList<>();
    lay(steps, 0, rampRateBeforeFirstKPerS, instructions);
    return new Program(instructions, rampRateBeforeFirstKPerS);
  }

  private static double lay(
      List<Step> steps, int depth, double rampRateKPerS, List<Instruction> into) {
    double rate = rampRateKPerS;
    for (Step step : steps) {
      if (step instanceof Step.Repeat repeat) {
        int start = into.size();
        into.add(null);
        rate = lay(repeat.steps(), depth + 1, rate, into);
        into.set(start, new Instruction.LoopStart(repeat, depth, into.size()));
        into.add(new Instruction.LoopEnd(repeat, depth, start));
      } else {
        if (step instanceof Step.Ramp ramp) {
          rate = ramp.rateKPerS();
        }
        into.add(new Instruction.Do(step, depth, rate));
      }
    }
    return rate;
  }

  /** The same with another step at a place; the soaks after it come back at its rate. */
  Program with(int position, Step changed) {
    List<Instruction> all = new ArrayList<>(instructions);
    all.set(position, new Instruction.Do(changed, all.get(position).depth(), 0));
    double rate = rateBeforeFirstKPerS;
    for (int i = 0; i < all.size(); i++) {
      if (all.get(i) instanceof Instruction.Do doing) {
        if (doing.step() instanceof Step.Ramp ramp) {
          rate = ramp.rateKPerS();
        }
        all.set(i, new Instruction.Do(doing.step(), doing.depth(), rate));
      }
    }
    return new Program(all, rateBeforeFirstKPerS);
  }

  int size() {
    return instructions.size();
  }

  Instruction at(int position) {
    return instructions.get(position);
  }

  /** The lines of the recipe as a person reads them; a repeat is one line before its steps. */
  public List<Line> lines() {
    List<Line> lines = new ArrayList<>();
    for (int i = 0; i < instructions.size(); i++) {
      Instruction each = instructions.get(i);
      if (each instanceof Instruction.Do run) {
        lines.add(new Line(i, each.depth(), run.step().common().title()));
      } else if (each instanceof Instruction.LoopStart loop) {
        lines.add(new Line(i, each.depth(), loop.repeat().common().title()));
      }
    }
    return lines;
  }

  /** One line of the recipe: its place in the program, its depth in repeats, its title. */
  public record Line(int position, int depth, String title) {}
}
