package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import tarnish.shared.reading.BadReason;
import tarnish.shared.rig.Switch;

/** The tables of an archive that explain the others in words. */
final class ArchiveWords {
  private static final String TABLES =
      """
      CREATE TABLE about (topic TEXT PRIMARY KEY, words TEXT NOT NULL);
      CREATE TABLE column_meaning (
        in_table TEXT NOT NULL, in_column TEXT NOT NULL, unit TEXT NOT NULL, meaning TEXT NOT NULL,
        PRIMARY KEY (in_table, in_column));
      CREATE TABLE switch_bit (bit INTEGER PRIMARY KEY, name TEXT NOT NULL);
      CREATE TABLE quality_code (code INTEGER PRIMARY KEY, meaning TEXT NOT NULL)
      """;

  private static final String[][] ABOUT = {
    {
      "what",
      "One batch of a slow gas-solid oxidation in a laboratory oven as its controller recorded it:"
          + " table batch says which. Begin with the tables channel, block_value and event, which"
          + " hold plain numbers and sentences."
    },
    {
      "time",
      "Every millis and every time_s counts from the start of the batch on a clock that is never"
          + " set. wall_time and last_wall name the moment in ISO 8601."
    },
    {
      "value",
      "A reading is a whole number of steps of its sensor's resolution (table channel). Value in"
          + " the SI unit of the channel = steps * resolution. Nothing finer was seen or lost."
    },
    {
      "numbers in blobs",
      "unsigned: seven bits a byte, lowest first, the top bit says that another byte follows."
          + " signed: unsigned n stands for (n >> 1) ^ -(n & 1)."
    },
    {
      "ticks in blobs",
      "sample_data.ticks is deflated (RFC 1950); sample_tail.ticks is not. Then: unsigned format 1,"
          + " number of ticks n, number of channels c. Times: signed first millis, unsigned period,"
          + " then n - 1 times signed deviation of each interval from the period. For each channel:"
          + " unsigned 0 and one signed value for all ticks, or unsigned 1, a signed first value"
          + " and n - 1 signed differences; then its quality as runs of unsigned length and"
          + " unsigned code + 1 (table quality_code) until n ticks are covered. Switches as runs of"
          + " unsigned length and unsigned bits (table switch_bit). Heater duty in thousandths as n"
          + " signed differences, the first from 0."
    },
    {
      "summaries in blobs",
      "sample_block.summary holds one summary of its block, sample_data.parts (deflated) one for"
          + " each 64 ticks. unsigned format 1, number of channels c; then for each summary: signed"
          + " first millis less the last millis of the one before (0 at first), unsigned last less"
          + " first millis, ticks, switch bits that were on at any time, sum of the duty; per"
          + " channel unsigned number of good readings and, if any: signed first steps less the"
          + " last steps of the summary before (0 at first), unsigned first less least, unsigned"
          + " greatest less first, signed last less first."
    },
    {
      "check sums",
      "The columns sum hold the CRC-32 of a row's other columns in the order event: millis,"
          + " sequence, wall_time, kind, sentence, data; sample_block and sample_tail: first_millis,"
          + " last_millis, last_wall, the blob; batch: title, recipe_text, rig_text, started_at,"
          + " note, seed (-1 for none). Numbers as 8 bytes, high byte first; texts (UTF-8) and blobs"
          + " with their length as such a number before them, -1 for none."
    },
    {
      "resolutions in blobs",
      "batch.resolutions: one IEEE 754 double per channel, high byte first; table channel has them"
          + " in plain numbers."
    },
  };

  private static final String[][] COLUMNS = {
    {"batch", "number", "", "number of the batch in the record it came from"},
    {"batch", "recipe_text", "", "the recipe file as it was run"},
    {"batch", "rig_text", "", "the rig file as it was run"},
    {"batch", "started_at", "ISO 8601", "name of the first tick"},
    {"batch", "seed", "", "of a simulated bench; empty for a real one"},
    {"batch", "end_state", "", "how it ended, words of IEC 61512"},
    {"batch", "summary_json", "SI", "result of the batch"},
    {"event", "millis", "ms", "time since the batch began"},
    {"event", "sequence", "", "order within one tick"},
    {"event", "kind", "", "what it is; of a request of a person it begins with Request."},
    {"event", "sentence", "", "what happened, in words"},
    {"event", "data", "JSON, SI", "of a request only: all of it"},
    {"sample_block", "first_millis", "ms", "time of the first tick of the block"},
    {"sample_block", "last_millis", "ms", "time of its last tick"},
    {"sample_block", "summary", "", "see about: summaries in blobs"},
    {"sample_data", "id", "", "of the block"},
    {"sample_data", "ticks", "", "see about: ticks in blobs"},
    {"sample_data", "parts", "", "see about: summaries in blobs"},
    {"block_value", "from_s", "s", "time since the batch began"},
    {"block_value", "to_s", "s", "time since the batch began"},
    {"block_value", "least", "unit of the channel", "least good reading of the block"},
    {"block_value", "greatest", "unit of the channel", "greatest good reading of the block"},
    {"block_value", "first", "unit of the channel", "first good reading of the block"},
    {"block_value", "last", "unit of the channel", "last good reading of the block"},
    {"block_value", "good_ticks", "", "number of good readings"},
  };

  private ArchiveWords() {}

  static void write(Connection connection, String madeBy) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      for (String command : TABLES.split(";")) {
        statement.execute(command);
      }
    }
    String now = OffsetDateTime.now(ZoneOffset.UTC).truncatedTo(ChronoUnit.SECONDS).toString();
    row(connection, "about", "made", "By " + madeBy + " at " + now + ".");
    for (String[] about : ABOUT) {
      row(connection, "about", (Object[]) about);
    }
    for (String[] column : COLUMNS) {
      row(connection, "column_meaning", (Object[]) column);
    }
    for (Switch each : Switch.values()) {
      row(connection, "switch_bit", each.ordinal(), each.words());
    }
    row(connection, "quality_code", -1, "good");
    for (BadReason reason : BadReason.values()) {
      row(connection, "quality_code", reason.ordinal(), reason.words());
    }
  }

  static void row(Connection connection, String table, Object... values) throws SQLException {
    String places = "?, ".repeat(values.length - 1) + "?";
    String command = "INSERT INTO " + table + " VALUES (" + places + ")";
    try (PreparedStatement insert = connection.prepareStatement(command)) {
      for (int i = 0; i < values.length; i++) {
        insert.setObject(i + 1, values[i]);
      }
      insert.executeUpdate();
    }
  }
}
