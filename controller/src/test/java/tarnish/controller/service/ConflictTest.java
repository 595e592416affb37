package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.http.HttpResponse;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.Event;
import tarnish.controller.control.Request;

/** Two who act at once: the second is told what the first did. */
class ConflictTest {
  private static final String STOP = "{\"type\":\"stop\",\"by\":\"Ben\"}";

  private FakeBench bench;
  private WebService service;
  private Client client;
  private String token;

  @BeforeEach
  void start() {
    bench = new FakeBench(Scene.RUNNING);
    service = FakeWorkshop.serve(bench, 0);
    client = new Client(service.port());
    token = client.token();
  }

  @AfterEach
  void stop() {
    service.close();
  }

  private HttpResponse<String> act(String body, String state, String page) {
    return client.send(
        client
            .write("/api/requests", body)
            .setHeader(Guard.TOKEN_HEADER, token)
            .setHeader(Writes.STATE_HEADER, state)
            .setHeader(Writes.PAGE_HEADER, page));
  }

  @Test
  void whoDecidedOnAnOldStateIsToldWhatChanged() {
    String seen = client.state();
    assertEquals(
        202, act("{\"type\":\"checkOut\",\"by\":\"Ada\"}", seen, "page-of-ada").statusCode());
    HttpResponse<String> second = act(STOP, seen, "page-of-ben");
    assertEquals(409, second.statusCode());
    assertTrue(second.body().contains("Ada: check out"), second.body());
    assertEquals(List.of(new Request.CheckOut("Ada")), bench.submitted);
    assertEquals(202, act(STOP, client.state(), "page-of-ben").statusCode());
  }

  @Test
  void onesOwnActsDoNotMakeOnesPageOld() {
    String seen = client.state();
    for (int i = 0; i < 3; i++) {
      assertEquals(
          202,
          act("{\"type\":\"checkIn\",\"by\":\"Ada\",\"hours\":1}", seen, "page-of-ada")
              .statusCode());
    }
    assertEquals(3, bench.submitted.size());
  }

  @Test
  void whatHappensByItselfMakesAPageOld() {
    String seen = client.state();
    bench.changes.ticked(
        List.of(),
        List.of(new Event.StateChanged(BatchState.RUNNING, BatchState.HOLDING, "oven too hot")));
    HttpResponse<String> answer = act(STOP, seen, "page-of-ben");
    assertEquals(409, answer.statusCode());
    assertTrue(answer.body().contains("oven too hot"), answer.body());
  }

  @Test
  void makingSafeIsNeverRefusedForBeingLate() {
    String seen = client.state();
    act("{\"type\":\"checkOut\",\"by\":\"Ada\"}", seen, "page-of-ada");
    assertEquals(202, act("{\"type\":\"pause\",\"by\":\"Ben\"}", seen, "page-of-ben").statusCode());
    assertEquals(
        202,
        client
            .send(client.write("/api/abort", "").setHeader(Guard.TOKEN_HEADER, token))
            .statusCode());
  }

  @Test
  void anActWithoutTheStateItWasDecidedOnIsRefused() {
    assertEquals(
        428,
        client
            .send(client.write("/api/requests", STOP).setHeader(Guard.TOKEN_HEADER, token))
            .statusCode());
    for (String wrong : List.of("", "x", "-1", "9999999999999999", "1")) {
      assertTrue(act(STOP, wrong, "page-of-ben").statusCode() >= 409, wrong);
    }
    assertEquals(List.of(), bench.submitted);
  }

  /** However close together: of twenty browsers with one state, one wins. */
  @Test
  void ofManyAtOnceExactlyOneWins() {
    String seen = client.state();
    List<CompletableFuture<Integer>> answers =
        IntStream.range(0, 20)
            .mapToObj(
                i ->
                    CompletableFuture.supplyAsync(
                        () ->
                            act(
                                    "{\"type\":\"checkOut\",\"by\":\"P" + i + "\"}",
                                    seen,
                                    "page-number-" + i)
                                .statusCode()))
            .toList();
    List<Integer> statuses = answers.stream().map(CompletableFuture::join).toList();
    assertEquals(1, statuses.stream().filter(s -> s == 202).count(), statuses.toString());
    assertEquals(19, statuses.stream().filter(s -> s == 409).count(), statuses.toString());
    assertEquals(1, bench.submitted.size());
  }

  @Test
  void afterARestartOldPagesAreOld() {
    Changes before = new Changes(5000);
    before.note("something");
    Changes after = new Changes(1_000_000);
    assertTrue(after.claim(before.version(), "page", "stop", new Request.Stop("b")).isPresent());
    assertTrue(before.claim(after.version(), "page", "stop", new Request.Stop("b")).isPresent());
  }
}
