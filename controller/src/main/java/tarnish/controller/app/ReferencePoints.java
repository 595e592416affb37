package tarnish.controller.app;

import java.util.List;
import tarnish.controller.service.BenchView.ReferenceLine;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.RigDescription;

/** What a person can bring a sensor to, and what is true there. */
final class ReferencePoints {
  /** Boiling point of water at 101325 Pa in K (IAPWS-95: 99.974 °C); from memory. */
  private static final double BOILING_K = 373.124;

  private static final double STANDARD_PA = 101_325;

  /** Molar heat of vaporisation of water there in J/mol; from memory. */
  private static final double VAPORISATION_J_PER_MOL = 40_660;

  private static final double GAS_CONSTANT = 8.314462618;

  private final RigDescription rig;

  ReferencePoints(RigDescription rig) {
    this.rig = rig;
  }

  /** Clausius and Clapeyron: 1/T = 1/T0 - R/L ln(p/p0); within 0.05 K from 900 to 1050 hPa. */
  static double boilingK(double pressurePa) {
    return 1
        / (1 / BOILING_K
            - GAS_CONSTANT / VAPORISATION_J_PER_MOL * Math.log(pressurePa / STANDARD_PA));
  }

  List<ReferenceLine> of(Channel channel, Readings now) {
    double roomPa = now.valueOr(Channel.ROOM_PRESSURE, rig.roomPressurePa());
    String room = Quantities.print(roomPa, Unit.MILLIBAR, 1);
    return switch (channel.kind()) {
      case TEMPERATURE ->
          List.of(
              new ReferenceLine(
                  "ice point: stirred crushed ice in water, 10 min", false, "0 °C ± 0.05 K"),
              new ReferenceLine(
                  "boiling point: in the steam above boiling clean water, 10 min, at " + room,
                  true,
                  Quantities.print(boilingK(roomPa), Unit.CELSIUS, 2) + " ± 0.1 K"));
      case PRESSURE ->
          List.of(
              new ReferenceLine(
                  "zero: pumped down to the pump's end",
                  false,
                  Quantities.print(rig.pumpUltimatePa(), Unit.MILLIBAR, 2)
                      + " ± "
                      + Quantities.print(rig.pumpUltimatePa(), Unit.MILLIBAR, 2)),
              new ReferenceLine(
                  "span: open to the room, by a barometer", true, room + " ± 0.5 mbar"));
      case FRACTION ->
          List.of(
              new ReferenceLine("span: in fresh air", true, "20.95 % ± 0.02 %"),
              new ReferenceLine("zero: in pure inert gas", false, "0 % ± 0.01 %"));
      case CONTACT -> List.of();
    };
  }
}
