package tarnish.controller.control;

import java.util.List;
import tarnish.shared.rig.Outputs;

/** What one tick gives: the state after it, the outputs, and what is worth recording. */
public record Turn(ControlState state, Outputs outputs, List<Event> events) {}
