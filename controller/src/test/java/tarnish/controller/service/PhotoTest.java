package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.Request;
import tarnish.controller.library.Checksum;
import tarnish.controller.library.PhotoStore;

/** Photos for the ledger; OWASP ASVS 5.0 3.2.1, and 5.2.1 and 5.2.2 (from memory). */
class PhotoTest {
  private FakeBench bench;
  private WebService service;
  private Client client;

  @BeforeEach
  void start() {
    bench = new FakeBench(Scene.RUNNING);
    service = FakeWorkshop.serve(bench, 0);
    client = new Client(service.port());
  }

  @AfterEach
  void stop() {
    service.close();
  }

  private static byte[] picture(String format) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      ImageIO.write(new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB), format, out);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
    return out.toByteArray();
  }

  private HttpResponse<byte[]> send(HttpRequest.Builder request) {
    try {
      return HttpClient.newHttpClient().send(request.build(), BodyHandlers.ofByteArray());
    } catch (IOException | InterruptedException e) {
      throw new AssertionError(e);
    }
  }

  private HttpRequest.Builder to(String path) {
    return HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + service.port() + path));
  }

  private int upload(byte[] bytes, String type) {
    return send(to("/api/photos?by=Ada&remark=after%20grinding")
            .header("Content-Type", type)
            .header(Guard.TOKEN_HEADER, client.token())
            .header(Writes.STATE_HEADER, client.state())
            .POST(BodyPublishers.ofByteArray(bytes)))
        .statusCode();
  }

  @Test
  void aPhotoGoesIntoTheLedgerByItsChecksumAndComesBackAsAPictureOnly() {
    byte[] png = picture("png");
    assertEquals(202, upload(png, "image/png"));
    String sum = Checksum.of(png);
    assertEquals(
        List.of(new Request.Photo("Ada", sum, png.length, "after grinding")), bench.submitted);
    HttpResponse<byte[]> back = send(to("/api/photos/" + sum));
    assertArrayEquals(png, back.body());
    assertEquals("image/png", back.headers().firstValue("Content-Type").orElse(""));
    assertEquals("nosniff", back.headers().firstValue("X-Content-Type-Options").orElse(""));
    assertTrue(back.headers().firstValue("Content-Security-Policy").orElse("").contains("sandbox"));
    assertEquals(202, upload(picture("jpg"), "image/jpeg"));
  }

  @Test
  void whatIsNoPictureIsRefusedWhateverItIsCalled() {
    byte[] png = picture("png");
    byte[] jpeg = picture("jpg");
    byte[] page = "<html><script>alert(1)</script>".getBytes(StandardCharsets.UTF_8);
    byte[] huge = png.clone();
    huge[16] = 0x7f;
    for (byte[] bad :
        List.of(
            new byte[0],
            page,
            Arrays.copyOf(png, png.length - 9),
            Arrays.copyOf(jpeg, jpeg.length - 2),
            Arrays.copyOf(png, 20),
            huge)) {
      assertEquals(415, upload(bad, "image/png"));
    }
    assertEquals(415, upload(png, "image/svg+xml"));
    assertEquals(415, upload(png, "application/json"));
    assertEquals(List.of(), bench.submitted);
  }

  @Test
  void aPhotoThatIsTooLargeIsRefused() {
    byte[] large = Arrays.copyOf(picture("png"), PhotoStore.BYTES_MAX + 1);
    assertEquals(413, upload(large, "image/png"));
    assertEquals(List.of(), bench.submitted);
  }

  @Test
  void onlyAChecksumNamesAPhoto() {
    for (String path : List.of("x", "..%2f..%2fetc%2fpasswd", "A".repeat(64), "0".repeat(64))) {
      int status = send(to("/api/photos/" + path)).statusCode();
      assertTrue(status == 404 || status == 400, path + ": " + status);
    }
  }
}
