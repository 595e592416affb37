package tarnish.controller.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tarnish.controller.journal.Journal.Series;

/** The record as JSON in SI units, beside the printable one. */
final class RecordJson {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private RecordJson() {}

  static String of(BatchStory story, InForce inForce, Map<String, String> sums) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("batch", story.line().batch());
    all.put("title", story.head().title());
    all.put("startedAt", story.head().startedAt());
    all.put("note", story.head().note());
    all.put("invented", story.isInvented());
    all.put("rig", story.plan().rig().name());
    all.put("recipeSha256", Sha256.of(story.head().recipeText()));
    all.put("rigSha256", Sha256.of(story.head().rigText()));
    all.put("endState", story.end().state());
    all.put("calendarSeconds", story.line().lastMillis() / 1e3);
    all.put("runningSeconds", story.end().tally().runningS());
    all.put("ovenSeconds", story.end().tally().ovenS());
    all.put("equivalentSecondsAtTop", story.end().tally().equivalentS());
    all.put("topSoakK", story.plan().topSoakK());
    all.put("oxygenPulses", story.end().pulses());
    all.put("oxygenUptakeMol", story.end().uptakeMol());
    all.put("oxygenPerFormulaUnit", story.end().oxygenPerUnit());
    all.put("conversion", story.end().conversion());
    all.put("soaks", soaks(story));
    all.put("weighings", story.weighings());
    all.put("alarms", story.alarms());
    all.put("people", story.people());
    all.put("stretches", story.stretches());
    all.put("outages", story.outages());
    all.put("calibrations", inForce.calibrations());
    all.put("proofTests", inForce.proofs());
    all.put("readings", readings(story));
    all.put("replayedTicks", story.check().ticks());
    all.put("replayFirstDifference", story.check().firstDifference());
    all.put("sha256", sums);
    try {
      DefaultPrettyPrinter lines =
          new DefaultPrettyPrinter()
              .withObjectIndenter(new DefaultIndenter("  ", "\n"))
              .withArrayIndenter(new DefaultIndenter("  ", "\n"));
      return MAPPER.writer(lines).writeValueAsString(all) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private static List<Map<String, Object>> soaks(BatchStory story) {
    List<Map<String, Object>> soaks = new ArrayList<>();
    for (BatchStory.Soak soak : story.soaks()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("setpointK", soak.earned().setpointK());
      one.put("requiredSeconds", soak.earned().requiredS());
      one.put("inBandSeconds", soak.earned().inBandS());
      one.put("startSeconds", soak.startMillis() < 0 ? null : soak.startMillis() / 1e3);
      one.put("endSeconds", soak.endMillis() < 0 ? null : soak.endMillis() / 1e3);
      soaks.add(one);
    }
    return soaks;
  }

  private static Map<String, Object> readings(BatchStory story) {
    Map<String, Object> readings = new LinkedHashMap<>();
    for (Series series : story.history().series()) {
      Extremes extremes = Extremes.of(series);
      if (extremes.count() > 0) {
        readings.put(Extremes.channel(series).words(), extremes);
      }
    }
    return readings;
  }
}
