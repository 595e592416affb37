package tarnish.controller.app;

import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.oven.OvenFitter;
import tarnish.shared.oven.OvenTrace;

/** Measured against fitted temperatures of an identification, as a small SVG. */
final class FittedPlot {
  private static final int WIDTH = 760;
  private static final int HEIGHT = 300;
  private static final int STRIP = 90;
  private static final int LEFT = 50;
  private static final int POINTS = 380;

  private final OvenTrace trace;
  private final double[][] fitted;
  private final IdentifiedOven oven;
  private final double lowK;
  private final double highK;
  private double worstK = 1;

  FittedPlot(OvenTrace trace, IdentifiedOven oven, int restSteps) {
    this.trace = trace;
    this.oven = oven;
    fitted = OvenFitter.predicted(trace, oven.model(), restSteps);
    double low = Double.MAX_VALUE;
    double high = 0;
    for (int i = 0; i < trace.size(); i++) {
      low = Math.min(low, Math.min(trace.ovenK(i), trace.sampleK(i)));
      high = Math.max(high, Math.max(trace.ovenK(i), trace.sampleK(i)));
      worstK = Math.max(worstK, Math.abs(trace.ovenK(i) - fitted[0][i]));
      worstK = Math.max(worstK, Math.abs(trace.sampleK(i) - fitted[1][i]));
    }
    lowK = low;
    highK = high;
  }

  private interface Curve {
    double y(int i);
  }

  String svg() {
    StringBuilder out = new StringBuilder();
    out.append(
        String.format(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" role=\"img\""
                + " font-family=\"sans-serif\" font-size=\"11\">%n",
            WIDTH + LEFT + 10, HEIGHT + STRIP + 60));
    out.append(
        String.format(
            "<title>Oven identified %s with %s: measured and fitted</title>%n",
            oven.identified(), escaped(oven.vesselName())));
    out.append("<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n");
    line(out, "#d55e00", 3, i -> height(trace.ovenK(i)));
    line(out, "#000000", 1, i -> height(fitted[0][i]));
    line(out, "#56b4e9", 3, i -> height(trace.sampleK(i)));
    line(out, "#000000", 1, i -> height(fitted[1][i]));
    line(out, "#d55e00", 1, i -> strip(trace.ovenK(i) - fitted[0][i]));
    line(out, "#56b4e9", 1, i -> strip(trace.sampleK(i) - fitted[1][i]));
    text(out, 4, height(highK) + 10, String.format("%.0f °C", highK - 273.15));
    text(out, 4, height(lowK), String.format("%.0f °C", lowK - 273.15));
    text(out, 4, strip(worstK) + 10, String.format("+%.1f K", worstK));
    text(out, 4, strip(-worstK), String.format("−%.1f K", worstK));
    text(
        out,
        LEFT,
        HEIGHT + STRIP + 50,
        String.format(
            "%.1f h; oven orange, sample blue, fit black; below: measured minus fitted, rms %.2f K",
            trace.size() * trace.stepS() / 3600, oven.residualK()));
    return out.append("</svg>\n").toString();
  }

  private double height(double temperatureK) {
    return 10 + HEIGHT * (highK - temperatureK) / (highK - lowK);
  }

  private double strip(double residualK) {
    return 20 + HEIGHT + STRIP * (worstK - residualK) / (2 * worstK);
  }

  private void line(StringBuilder out, String colour, int width, Curve curve) {
    out.append(
        String.format(
            "<polyline fill=\"none\" stroke=\"%s\" stroke-width=\"%d\" points=\"", colour, width));
    int every = Math.max(1, trace.size() / POINTS);
    for (int i = 0; i < trace.size(); i += every) {
      double x = LEFT + (double) WIDTH * i / trace.size();
      out.append(String.format("%.1f,%.1f ", x, curve.y(i)));
    }
    out.append("\"/>\n");
  }

  private static void text(StringBuilder out, double x, double y, String words) {
    out.append(String.format("<text x=\"%.0f\" y=\"%.0f\">%s</text>%n", x, y, words));
  }

  private static String escaped(String words) {
    return words.replace("&", "&amp;").replace("<", "&lt;");
  }
}
