package tarnish.controller.service;

import java.util.ArrayList;
import java.util.List;
import tarnish.controller.record.AtTemperature;

/** An {@link AtTemperature} as the page draws it: SI units, null where there is no value. */
record CourseDrawing(
    int batch,
    String title,
    double targetPerUnit,
    double topK,
    List<Double> seconds,
    List<Double> inBandS,
    List<Double> equivalentS,
    Curve sampleK,
    Curve pressurePa,
    List<Double> oxygenPerUnit,
    List<Double> oxygenPerUnitU) {

  record Curve(List<Double> least, List<Double> greatest, List<Double> last) {}

  static CourseDrawing of(AtTemperature course) {
    return new CourseDrawing(
        course.batch(),
        course.title(),
        course.targetPerUnit(),
        course.topK(),
        drawn(course.seconds()),
        drawn(course.inBandS()),
        drawn(course.equivalentS()),
        curve(course.sampleK()),
        curve(course.pressurePa()),
        drawn(course.oxygenPerUnit()),
        drawn(course.oxygenPerUnitU()));
  }

  private static Curve curve(AtTemperature.Band band) {
    return new Curve(drawn(band.least()), drawn(band.greatest()), drawn(band.last()));
  }

  private static List<Double> drawn(double[] values) {
    List<Double> drawn = new ArrayList<>(values.length);
    for (double each : values) {
      drawn.add(Double.isNaN(each) ? null : Json.drawn(each));
    }
    return drawn;
  }
}
