package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.control.Event;
import tarnish.controller.control.Request;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

class CsvExportTest {
  @TempDir Path folder;

  private SqliteJournal withTwoTicks() {
    double[] resolutions = new double[Channel.COUNT];
    resolutions[Channel.SAMPLE_TEMPERATURE.ordinal()] = 0.1;
    resolutions[Channel.OVEN_TEMPERATURE.ordinal()] = 0.0078125;
    resolutions[Channel.VESSEL_PRESSURE.ordinal()] = 10;
    resolutions[Channel.ROOM_OXYGEN.ordinal()] = 1e-4;
    resolutions[Channel.DOOR.ordinal()] = 1;
    SqliteJournal journal = SqliteJournal.open(folder);
    int batch =
        journal.begin(
            new Journal.BatchHead(
                "first\ntry", "r", "g", "2026-01-01T08:00:00+01:00", "invented data", null));
    Readings readings = new Readings(resolutions);
    readings.good(Channel.SAMPLE_TEMPERATURE, 293.1);
    readings.good(Channel.VESSEL_PRESSURE, 95_010);
    readings.good(Channel.ROOM_OXYGEN, 0.2094);
    readings.good(Channel.DOOR, 1);
    journal.tick(
        batch,
        0,
        "08:00",
        readings,
        List.of(new Request.Start("Ann Example")),
        Outputs.of(7, Switch.HEATER),
        List.of(new Event.Advisory("say \"hello\", then go")));
    readings.good(Channel.SAMPLE_TEMPERATURE, 273.1);
    readings.good(Channel.OVEN_TEMPERATURE, 1273.15);
    readings.bad(Channel.VESSEL_PRESSURE, BadReason.OPEN_CIRCUIT);
    readings.bad(Channel.DOOR, BadReason.STALE);
    Outputs outputs = Outputs.of(1000, Switch.OXYGEN, Switch.HEARTBEAT);
    journal.tick(batch, 1250, "08:01", readings, List.of(), outputs, List.of());
    journal.flush();
    return journal;
  }

  @Test
  void samplesAreWrittenLikeThis() throws IOException {
    StringWriter text = new StringWriter();
    try (SqliteJournal journal = withTwoTicks()) {
      CsvExport.samples(journal, 1, text);
    }
    assertEquals(
        """
        # batch 1: first try
        # started 2026-01-01T08:00:00+01:00
        # note invented data
        time since start [s],sample temperature [°C],oven temperature [°C],vessel pressure [mbar],\
        room oxygen [%],oven door,heater,oxygen valve,inert gas valve,vacuum valve,vent valve,\
        vacuum pump,heartbeat,heater duty [%],remarks
        0.000,19.95,,950.1,20.94,1,1,0,0,0,0,0,0,0.7,oven temperature: no value received yet
        1.250,-0.05,999.998,,20.94,,0,1,0,0,0,0,1,100.0,\
        vessel pressure: sensor or cable open; oven door: last value is too old
        """,
        text.toString());
  }

  @Test
  void eventsAreWrittenLikeThis() throws IOException {
    StringWriter text = new StringWriter();
    try (SqliteJournal journal = withTwoTicks()) {
      CsvExport.events(journal, 1, text);
    }
    assertEquals(
        """
        # batch 1: first try
        # started 2026-01-01T08:00:00+01:00
        # note invented data
        time since start [s],wall-clock time,kind,what happened
        0.000,08:00,Request.Start,Ann Example asks: start
        0.000,08:00,Advisory,"say ""hello"", then go"
        """,
        text.toString());
  }

  @Test
  void theSameRecordGivesTheSameBytesHoweverItWasWritten() throws IOException {
    List<BatchMaker.Made> ticks = BatchMaker.ticks(41, 3000, 0.01);
    StringWriter atOnce = new StringWriter();
    StringWriter inPieces = new StringWriter();
    try (SqliteJournal journal = SqliteJournal.open(folder.resolve("a"), Pace.FAST)) {
      CsvExport.samples(journal, BatchMaker.writeAll(journal, ticks), new StringWriter());
      journal.flush();
      CsvExport.samples(journal, 1, atOnce);
    }
    try (SqliteJournal journal = SqliteJournal.open(folder.resolve("b"))) {
      BatchMaker.writeAll(journal, ticks.subList(0, 1500));
    }
    try (SqliteJournal journal = SqliteJournal.open(folder.resolve("b"))) {
      ticks.subList(1500, 3000).forEach(tick -> tick.giveTo(journal, 1));
      journal.flush();
      CsvExport.samples(journal, 1, inPieces);
    }
    assertEquals(3004, atOnce.toString().lines().count());
    assertEquals(atOnce.toString(), inPieces.toString());
  }

  @Test
  void numbersAreWrittenDigitByDigit() {
    assertEquals("0.000", fixed(0, 3));
    assertEquals("-0.05", fixed(-5, 2));
    assertEquals("12.345", fixed(12345, 3));
    assertEquals("-1.0", fixed(-10, 1));
    assertEquals("42", fixed(42, 0));
    assertEquals("0.999", fixed(999, 3));
    assertEquals("1.000", fixed(1000, 3));
  }

  private static String fixed(long scaled, int decimals) {
    StringBuilder text = new StringBuilder();
    CsvExport.appendFixed(text, scaled, decimals);
    return text.toString();
  }
}
