package tarnish.controller.record;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;

/** The printable page: A4, no script, nothing loaded from anywhere. */
public final class RecordPage {
  /** The one style sheet, as it stands in every page: what a content security policy may name. */
  public static final String STYLE = resource("record.css");

  private RecordPage() {}

  static String of(BatchStory story, InForce inForce, Map<String, String> sums, String version) {
    Html html = new Html().head(RecordContent.title(story) + " – record", STYLE);
    new RecordContent(story, inForce, sums, version, html).write();
    return html.foot().toString();
  }

  private static String resource(String name) {
    try (InputStream in = RecordPage.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
