package tarnish.controller.service;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.Map;
import java.util.Set;
import tarnish.controller.control.Request;
import tarnish.controller.library.PhotoStore;

/** Photos for the ledger: taken by their content, given back as nothing but a picture. */
final class PhotoRoutes {
  static final String UPLOAD = "/api/photos";
  static final Set<String> TYPES = Set.of("image/jpeg", "image/png");

  private final Workshop workshop;
  private final Writes writes;

  PhotoRoutes(Workshop workshop, Writes writes) {
    this.workshop = workshop;
    this.writes = writes;
  }

  void addTo(RoutesConfig routes) {
    routes.post(UPLOAD, this::upload);
    routes.get("/api/photos/{sha256}", this::show);
  }

  private void upload(Context context) throws IOException {
    Acts.say(context, "photo for the ledger");
    String by = writes.name(context, text(context, "by", RequestReader.NAME_LENGTH_MAX));
    String remark = text(context, "remark", RequestReader.REMARK_LENGTH_MAX);
    byte[] bytes = Bodies.read(context, PhotoStore.BYTES_MAX);
    PhotoStore.Kind kind =
        PhotoStore.kind(bytes)
            .orElseThrow(
                () -> new Refused(415, "That is neither a whole JPEG nor a whole PNG picture."));
    writes.mustBeFresh(context);
    PhotoStore.Photo photo =
        workshop
            .photos()
            .keep(bytes, kind)
            .orElseThrow(() -> new Refused(409, "There is no more room for photos."));
    writes.submit(context, new Request.Photo(by, photo.sha256(), photo.bytes(), remark));
  }

  /** Words beside the bytes stand in the address. */
  private static String text(Context context, String name, int lengthMax) {
    String text = context.queryParam(name);
    if (text == null || text.isBlank()) {
      return "";
    }
    Fields.checkText(name, text, lengthMax, false);
    return text.strip();
  }

  private void show(Context context) throws IOException {
    PhotoStore.Photo photo =
        workshop
            .photos()
            .find(context.pathParam("sha256"))
            .orElseThrow(() -> Refused.unknown("There is no such photo."));
    context.header("Content-Security-Policy", "default-src 'none'; sandbox");
    context.header("Content-Disposition", "inline; filename=\"photo\"");
    context.contentType(photo.kind().type()).result(workshop.photos().bytes(photo));
  }

  static Map<String, Object> limits() {
    return Map.of("bytesMax", PhotoStore.BYTES_MAX);
  }
}
