package tarnish.controller.fuzz;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import tarnish.controller.devices.FuzzModbusFrame;
import tarnish.controller.files.FuzzRecipe;
import tarnish.controller.files.FuzzRig;
import tarnish.controller.journal.FuzzRecord;
import tarnish.controller.service.FuzzApi;

/** The parsers that are tried with invented input, each with sound input to begin from. */
enum Target {
  RECORD(FuzzRecord.class, FuzzRecord::fuzzerTestOneInput, 240),
  API(FuzzApi.class, FuzzApi::fuzzerTestOneInput, 230),
  LINE(FuzzLine.class, FuzzLine::fuzzerTestOneInput, 230),
  FORMULA(FuzzFormula.class, FuzzFormula::fuzzerTestOneInput, 140),
  MODBUS(FuzzModbusFrame.class, FuzzModbusFrame::fuzzerTestOneInput, 130),
  RIG(FuzzRig.class, FuzzRig::fuzzerTestOneInput, 16),
  RECIPE(FuzzRecipe.class, FuzzRecipe::fuzzerTestOneInput, 14);

  /** Tries one input; anything thrown is a find. */
  interface Trial {
    void with(byte[] data) throws Exception;
  }

  final Class<?> type;
  final Trial trial;

  /** How much of all executions this target gets, in thousandths; reading YAML is slow. */
  final int share;

  Target(Class<?> type, Trial trial, int share) {
    this.type = type;
    this.trial = trial;
    this.share = share;
  }

  String words() {
    return name().toLowerCase(java.util.Locale.ROOT);
  }

  /** Whether it reads whole files of some kB, made of known words. */
  boolean readsFiles() {
    return this == RECIPE || this == RIG;
  }

  List<byte[]> seeds() {
    return switch (this) {
      case RECIPE ->
          demo(
              "copper-oxide.recipe.yaml",
              "barium-peroxide.recipe.yaml",
              "catalyst-passivation.recipe.yaml");
      case RIG -> demo("bench.rig.yaml", "catalyst.rig.yaml", "instruments.rig.yaml");
      case FORMULA ->
          texts(
              "\0Cu2O",
              "\1BaO2",
              "\2(NH4)2[Fe(CN)6]·3H2O",
              "\0150 °C",
              "\5" + "1 h 30 min",
              "\3" + "900 mbar to 1 bar",
              "\6" + "4.000 g ± 1 mg",
              "\0-1.5e2 K +/- 0.3 K");
      case LINE ->
          texts(
              "P={value} mbar\nP=+1.25E+2 mbar",
              "{any},{value},{any}\n1,-.5,abc",
              "OK\nOK\r",
              "{value}\n 9.9E37");
      case MODBUS ->
          List.of(
              bytes(0x1e, 1, 3, 2, 0, 42, 0x39, 0x9b),
              bytes(0x03, 1, 3, 4, 0x41, 0xc8, 0, 0, 0x6f, 0xfd),
              bytes(0x08, 1, 0x83, 2, 0xc0, 0xf1));
      case API ->
          texts(
              "{\"type\":\"pause\",\"by\":\"Ada\"}",
              "{\"type\":\"reset\",\"by\":\"Ada\",\"alarm\":\"leak\",\"reason\":\"new seal\"}",
              "{\"type\":\"answer\",\"by\":\"Ada\",\"questionNumber\":4,"
                  + "\"values\":{\"mass\":0.0021},\"remark\":\"grey\"}",
              "{\"type\":\"checkIn\",\"by\":\"Ada\",\"hours\":8}",
              "{\"type\":\"loss\",\"by\":\"Ada\",\"leftKg\":0.004,\"lostKg\":1e-5,\"remark\":\"\"}",
              "{\"recipe\":\"title: copper\",\"by\":\"Ada\"}");
      case RECORD ->
          List.of(
              led(0, FuzzRecord.soundTicks()),
              led(1, FuzzRecord.soundBlock()),
              led(2, FuzzRecord.soundSummaries()),
              led(3, FuzzRecord.soundRequest()));
    };
  }

  private static byte[] led(int first, byte[] rest) {
    byte[] all = new byte[rest.length + 1];
    all[0] = (byte) first;
    System.arraycopy(rest, 0, all, 1, rest.length);
    return all;
  }

  private static byte[] bytes(int... values) {
    byte[] bytes = new byte[values.length];
    for (int i = 0; i < values.length; i++) {
      bytes[i] = (byte) values[i];
    }
    return bytes;
  }

  private static List<byte[]> texts(String... texts) {
    List<byte[]> all = new ArrayList<>();
    for (String text : texts) {
      all.add(text.getBytes(StandardCharsets.UTF_8));
    }
    return all;
  }

  private static List<byte[]> demo(String... names) {
    List<byte[]> all = new ArrayList<>();
    for (String name : names) {
      try (InputStream in = Target.class.getResourceAsStream("/demo/" + name)) {
        all.add(in.readAllBytes());
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return all;
  }
}
