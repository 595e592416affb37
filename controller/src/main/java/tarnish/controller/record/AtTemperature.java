package tarnish.controller.record;

import java.util.Optional;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Journal.Series;
import tarnish.shared.reading.Channel;

/**
 * The course of a batch with its time at temperature, so that batches with different interruptions
 * can be laid over each other. One entry a column of the record's pictures; NaN where nothing was
 * recorded.
 *
 * @param seconds since the batch began
 * @param inBandS time within the band of all soaks so far
 * @param equivalentS Arrhenius-equivalent time at {@code topK}; all 0 where the recipe gives no
 *     activation energy
 * @param sampleK least, greatest and last in the column
 * @param pressurePa likewise
 * @param oxygenPerUnit by all witnesses, with its standard uncertainty
 */
public record AtTemperature(
    int batch,
    String title,
    double targetPerUnit,
    double topK,
    double[] seconds,
    double[] inBandS,
    double[] equivalentS,
    Band sampleK,
    Band pressurePa,
    double[] oxygenPerUnit,
    double[] oxygenPerUnitU) {

  /** A curve that hides no peak. */
  public record Band(double[] least, double[] greatest, double[] last) {}

  /**
   * Reads a batch, also one that still runs; takes seconds for two weeks of it.
   *
   * @throws IllegalArgumentException in words for the person, if there is no such batch
   */
  public static AtTemperature of(Journal journal, int batch) {
    return of(StoryReader.read(journal, batch));
  }

  static AtTemperature of(BatchStory story) {
    long[] starts = story.history().startMillis();
    int n = starts.length;
    double[] seconds = new double[n];
    double[] inBandS = new double[n];
    double[] equivalentS = new double[n];
    double[] perUnit = new double[n];
    double[] perUnitU = new double[n];
    BatchStory.Course course = story.course();
    for (int i = 0; i < n; i++) {
      seconds[i] = starts[i] / 1e3;
      int column =
          (int) StrictMath.min(course.inBandS().length - 1.0, starts[i] / course.columnMillis());
      boolean gap = course.oxygenPerUnit()[column] == null;
      inBandS[i] = course.inBandS()[column];
      equivalentS[i] = course.equivalentS()[column];
      perUnit[i] = gap ? Double.NaN : course.oxygenPerUnit()[column].value();
      perUnitU[i] = gap ? Double.NaN : course.oxygenPerUnit()[column].standardUncertainty();
    }
    return new AtTemperature(
        story.line().batch(),
        story.head().title(),
        story.plan().recipe().target().oxygenPerUnit(),
        story.plan().topSoakK(),
        seconds,
        inBandS,
        equivalentS,
        band(story, Channel.SAMPLE_TEMPERATURE, n),
        band(story, Channel.VESSEL_PRESSURE, n),
        perUnit,
        perUnitU);
  }

  private static Band band(BatchStory story, Channel channel, int n) {
    Optional<Series> found =
        story.history().series().stream()
            .filter(each -> each.channel().equals(channel.words()))
            .findFirst();
    Band band = new Band(new double[n], new double[n], new double[n]);
    for (int i = 0; i < n; i++) {
      boolean good = found.isPresent() && found.get().count()[i] > 0;
      band.least()[i] = good ? found.get().least()[i] : Double.NaN;
      band.greatest()[i] = good ? found.get().greatest()[i] : Double.NaN;
      band.last()[i] = good ? found.get().last()[i] : Double.NaN;
    }
    return band;
  }
}
