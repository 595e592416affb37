package tarnish.controller.service;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Set;
import tarnish.controller.control.Request;

/**
 * Lines of the ledger as a page sends them, in SI units; whether they make sense control decides.
 */
final class LedgerReader {
  private static final double MASS_MAX_KG = 100;
  private static final double VOLUME_MAX_M3 = 0.1;
  private static final double PRESSURE_MAX_PA = 2e6;

  private LedgerReader() {}

  static Request loss(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "leftKg", "lostKg", "remark"));
    return new Request.Loss(
        RequestReader.name(fields), mass(fields, "leftKg"), mass(fields, "lostKg"), remark(fields));
  }

  static Request transfer(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "arrivedKg", "remark"));
    return new Request.Transfer(
        RequestReader.name(fields), mass(fields, "arrivedKg"), remark(fields));
  }

  static Request vesselChange(JsonNode node) {
    Fields fields =
        Fields.of(
            node,
            Set.of(
                "type",
                "by",
                "hotM3",
                "hotUncertaintyM3",
                "coldM3",
                "coldUncertaintyM3",
                "remark"));
    return new Request.VesselChange(
        RequestReader.name(fields),
        volume(fields, "hotM3"),
        volume(fields, "hotUncertaintyM3"),
        volume(fields, "coldM3"),
        volume(fields, "coldUncertaintyM3"),
        remark(fields));
  }

  static Request sourceChange(JsonNode node) {
    Fields fields =
        Fields.of(
            node, Set.of("type", "by", "oxygenFraction", "uncertainty", "supplyPa", "remark"));
    return new Request.SourceChange(
        RequestReader.name(fields),
        fields.numberFrom("oxygenFraction", 0, 1),
        fields.numberFrom("uncertainty", 0, 1),
        fields.numberFrom("supplyPa", 0, PRESSURE_MAX_PA),
        remark(fields));
  }

  static Request addition(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "addedKg", "remark"));
    return new Request.Addition(
        RequestReader.name(fields), mass(fields, "addedKg"), remark(fields));
  }

  static Request sampleTaken(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "takenKg", "remark"));
    return new Request.SampleTaken(
        RequestReader.name(fields), mass(fields, "takenKg"), remark(fields));
  }

  private static double mass(Fields fields, String name) {
    return fields.numberFrom(name, 0, MASS_MAX_KG);
  }

  private static double volume(Fields fields, String name) {
    return fields.numberFrom(name, 0, VOLUME_MAX_M3);
  }

  private static String remark(Fields fields) {
    return fields.textOrEmpty("remark", RequestReader.REMARK_LENGTH_MAX);
  }
}
