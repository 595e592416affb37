package tarnish.controller.record;

import java.io.IOException;
import java.io.InputStream;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

/**
 * A typeface that is embedded, as far as it is used, so that a sheet looks the same everywhere. The
 * DejaVu fonts have what a record needs: °, ², ₂, ·, ±, →, −.
 */
final class Face implements AutoCloseable {
  private static final String FOLDER = "/net/sf/jasperreports/fonts/dejavu/";
  private static final int SUBSTITUTE = 0xFFFD;

  private final TrueTypeFont font;
  private final CmapLookup glyphs;
  private final PDFont embedded;
  private int lacking;

  private Face(TrueTypeFont font, PDDocument document) throws IOException {
    this.font = font;
    // Ligatures would change widths behind our back.
    font.setEnableGsub(false);
    glyphs = font.getUnicodeCmapLookup();
    embedded = PDType0Font.load(document, font, true);
  }

  static Face of(String name, PDDocument document) throws IOException {
    try (InputStream in = Face.class.getResourceAsStream(FOLDER + name + ".ttf")) {
      if (in == null) {
        throw new IOException("the program lacks the font " + name + ": build it anew");
      }
      return new Face(
          new TTFParser().parse(new RandomAccessReadBuffer(in.readAllBytes())), document);
    }
  }

  PDFont embedded() {
    return embedded;
  }

  /** Characters so far that the face does not have. */
  int lacking() {
    return lacking;
  }

  /** The words with a substitute for each character that the face does not have. */
  String known(String words) {
    StringBuilder known = new StringBuilder(words.length());
    words
        .codePoints()
        .filter(c -> !Character.isISOControl(c))
        .forEach(
            c -> {
              boolean there = glyphs.getGlyphId(c) > 0;
              lacking += there ? 0 : 1;
              known.appendCodePoint(there ? c : SUBSTITUTE);
            });
    return known.toString();
  }

  /** Width of known words at a size, both in the same unit. */
  double width(String known, double size) {
    try {
      double units = 0;
      for (int i = 0; i < known.length(); i += Character.charCount(known.codePointAt(i))) {
        units += font.getAdvanceWidth(glyphs.getGlyphId(known.codePointAt(i)));
      }
      return units * size / font.getUnitsPerEm();
    } catch (IOException e) {
      throw new IllegalStateException("a font of the program cannot be read", e);
    }
  }

  @Override
  public void close() throws IOException {
    font.close();
  }
}
