package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.AlarmState;
import tarnish.controller.control.Presence;
import tarnish.controller.control.Request;

class RequestCodecTest {
  private static final List<Request> EXAMPLES =
      List.of(
          new Request.Start("Ann Example"),
          new Request.Pause("Ann \"A.\" Example,\n日本 \u0000"),
          new Request.Resume(""),
          new Request.Restart("b"),
          new Request.Stop("b"),
          new Request.Abort("b"),
          new Request.Acknowledge("b", "over-temperature"),
          new Request.Reset("b", "over-temperature", "cause mended"),
          new Request.Answer("b", -3, Map.of(), ""),
          new Request.Answer(
              "b",
              Integer.MAX_VALUE,
              Map.of("mass", 0.1 + 0.2, "tiny", Double.MIN_VALUE, "zero", -0.0, "no", Double.NaN),
              "a remark"),
          new Request.Loss("b", 3.9e-3, 0, "spilled"),
          new Request.Transfer("b", 3.8e-3, ""),
          new Request.VesselChange("b", 2.5e-4, 1e-6, 8e-5, 1e-6, "tube B"),
          new Request.SourceChange("b", 0.93, 0.01, 1.6e5, "concentrator"),
          new Request.Addition("b", 1e-3, ""),
          new Request.SampleTaken("b", 5e-5, "for weighing in a field"),
          new Request.Note("b", "dark grey, ground for 5 min"),
          new Request.Photo("b", "ab".repeat(32), 5_000_000_000L, "after the soak"),
          new Request.Correction("b", 123_456_789_012L, "solid lost, \"5 mg\"", "it was 50 mg"),
          new Request.Preflight(
              "b", "cd".repeat(32), Map.of("vessel", "confirmed", "charge", "4 g")),
          new Request.ChangeStep(
              "b", 7, Map.of("for", 0.1 + 0.2, "at", 523.15), "slow", "complete after 9 h"),
          new Request.SkipSoak("b", 3, "done", ""),
          new Request.CheckIn("b", 7.5),
          new Request.CheckOut("b"),
          new Request.HandOver("b", "c", 0.25),
          new Request.Shelve("b", "heater dead", 30, "known"),
          new Request.Unshelve("b", "heater dead"),
          new Request.Defeat("b", "door open", 5, "loading"),
          new Request.Enforce("b", "door open"),
          new Request.PowerReturned("the service", 12345.678901234567),
          new Request.PowerReturned("the service", Double.POSITIVE_INFINITY),
          new Request.Expect("the service", "3 1 5.000 293.1 295.1 0 10 0 0.001\n"),
          new Request.ShellTrouble("the service", "journal not writable", "disk full"),
          new Request.ShellTrouble("the service", "clock stepped", "set back", -7200),
          new Request.RecordDamaged("the service", "2026-11-30T12:00:00Z", "a bit has turned"),
          new Request.TakeOver(
              "the service",
              new Presence("Ann Example", 9_000_000_000L, true),
              Map.of("door open", AlarmState.LATCHED_ACKNOWLEDGED),
              "door open"));

  @Test
  void everyKindOfRequestComesBackEqual() {
    for (Request request : EXAMPLES) {
      assertEquals(request, RequestCodec.decode(RequestCodec.encode(request)));
      assertFalse(RequestCodec.sentence(request).isBlank());
    }
  }

  @Test
  void noKindOfRequestIsForgottenHere() {
    Set<Class<?>> tried = EXAMPLES.stream().map(Object::getClass).collect(Collectors.toSet());
    assertEquals(Set.copyOf(Arrays.asList(Request.class.getPermittedSubclasses())), tried);
  }

  @Test
  void equalRequestsGiveTheSameBytes() {
    String json =
        RequestCodec.encode(new Request.Answer("b", 1, Map.of("c", 3.0, "a", 1.0, "b", 2.0), ""));
    assertEquals(
        "{\"type\":\"Answer\",\"by\":\"b\",\"questionNumber\":1,"
            + "\"values\":{\"a\":1.0,\"b\":2.0,\"c\":3.0},\"remark\":\"\"}",
        json);
  }

  private static long stepS(String detail) {
    String json =
        "{\"type\":\"ShellTrouble\",\"by\":\"b\",\"alarm\":\"clock stepped\",\"detail\":\""
            + detail
            + "\"}";
    Request.ShellTrouble read = (Request.ShellTrouble) RequestCodec.decode(json);
    assertEquals(detail, read.detail(), "it replays to the same words");
    return read.clockStepS();
  }

  /** As the service wrote it before the step was a number of its own. */
  @Test
  void theStepOfAClockIsReadFromTheWordsOfAnOlderRecord() {
    String goesOn = " s; the times of this batch go on as they began.";
    assertEquals(3600, stepS("The clock was set forwards by 3600" + goesOn));
    assertEquals(-7200, stepS("The clock was set back by 7200" + goesOn));
    assertEquals(0, stepS("campaign"));
    assertEquals(0, stepS("The clock was set forwards by some" + goesOn));
  }

  @Test
  void onlyAStepOfTheClockIsWrittenAsANumber() {
    String json = RequestCodec.encode(new Request.ShellTrouble("b", "clock stepped", "d", 90));
    assertTrue(json.endsWith(",\"clockStepS\":90}"), json);
    String none = RequestCodec.encode(new Request.ShellTrouble("b", "clock lost", "d"));
    assertFalse(none.contains("clockStepS"), none);
  }

  @Test
  void anUnknownKindIsNamed() {
    JournalException e =
        assertThrows(
            JournalException.class,
            () -> RequestCodec.decode("{\"type\":\"Levitate\",\"by\":\"b\"}"));
    assertTrue(e.getMessage().contains("Levitate"));
    assertEquals(JournalException.Trouble.TOO_NEW, e.trouble());
  }

  @Test
  void brokenTextIsDamage() {
    for (String json : List.of("", "{", "[]", "{\"type\":\"Pause\"}", "{\"type\":\"Reset\"}")) {
      assertThrows(JournalException.class, () -> RequestCodec.decode(json), json);
    }
  }
}
