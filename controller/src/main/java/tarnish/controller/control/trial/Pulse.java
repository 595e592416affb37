package tarnish.controller.control.trial;

import java.util.Set;
import tarnish.shared.rig.Switch;

/**
 * How one output is pulsed and looked at.
 *
 * @param preparation what a person does first, in sentences; may be empty
 * @param what the question, as in "Pulse the heater for 1.25 s (1000 J)?"
 * @param alongside outputs that are on from the first look to the last
 * @param on the output that is pulsed
 * @param pulseS how long at most; whole ticks of it are given, one at least
 * @param lookS how long is looked before and after
 * @param waitS time between the pulse and the look after it
 * @param most pulses at most, each after a yes of its own
 */
record Pulse(
    String title,
    String preparation,
    String what,
    Set<Switch> alongside,
    Switch on,
    double pulseS,
    double lookS,
    double waitS,
    int most) {}
