package tarnish.controller.service;

/** What a person asks for at the bench page. It is done only while no batch runs. */
public sealed interface BenchAsk {
  /** Who asks, as named on the page. */
  String by();

  /** Begin a trial, named as in {@link BenchView#trials()}. */
  record Begin(String by, String trial) implements BenchAsk {}

  /** Yes to the question that the trial asks. */
  record Confirm(String by, String question) implements BenchAsk {}

  /** End the trial now. */
  record Leave(String by) implements BenchAsk {}

  /** Note what every channel shows now in the record. */
  record Note(String by) implements BenchAsk {}

  /**
   * Take a point of a calibration now.
   *
   * @param upper whether it is the upper of the two
   * @param reference what is true there, as typed: "0 °C ± 0.05 K"
   */
  record Mark(String by, String channel, boolean upper, String reference) implements BenchAsk {}

  /** Keep the calibration drawn up from two points and use it from now on. */
  record Accept(String by) implements BenchAsk {}

  /** Forget the points taken. */
  record Drop(String by) implements BenchAsk {}
}
