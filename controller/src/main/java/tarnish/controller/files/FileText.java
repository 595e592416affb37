package tarnish.controller.files;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;

/** Turns the bytes of a recipe or rig file into text, or says why they are no such file. */
public final class FileText {
  /** Largest file that is read, in bytes: a recipe is a few kB. */
  public static final int LARGEST_BYTES = 1 << 20;

  private static final String TEXT = "a recipe or rig file: text in UTF-8";

  private FileText() {}

  /** Decodes strict UTF-8 and checks it as {@link #check} does. */
  public static ReadResult<String> decode(String fileName, byte[] bytes) {
    Faults faults = new Faults(fileName);
    if (bytes.length > LARGEST_BYTES) {
      faults.add(Place.START, bytes.length + " bytes", atMost());
      return ReadResult.faulty(faults.list());
    }
    ByteBuffer buffer = ByteBuffer.wrap(bytes);
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .onMalformedInput(CodingErrorAction.REPORT)
              .onUnmappableCharacter(CodingErrorAction.REPORT)
              .decode(buffer)
              .toString();
      return check(fileName, text);
    } catch (CharacterCodingException malformed) {
      String before = new String(bytes, 0, buffer.position(), StandardCharsets.UTF_8);
      faults.add(placeAfter(before), "bytes that are not UTF-8", TEXT);
      return ReadResult.faulty(faults.list());
    }
  }

  /** Refuses text that is empty, too large, or holds control characters. */
  static ReadResult<String> check(String fileName, String written) {
    String text = written.startsWith("\uFEFF") ? written.substring(1) : written;
    Faults faults = new Faults(fileName);
    if (text.length() > LARGEST_BYTES) {
      faults.add(Place.START, text.length() + " characters", atMost());
    } else if (text.isBlank()) {
      faults.add(Place.START, "an empty file", TEXT);
    } else {
      int at = firstUnprintable(text);
      if (at >= 0) {
        String code = String.format("U+%04X", text.codePointAt(at));
        faults.add(placeAfter(text.substring(0, at)), "the control character " + code, TEXT);
      }
    }
    return faults.result(() -> text);
  }

  private static String atMost() {
    return "a recipe or rig file of at most " + LARGEST_BYTES + " bytes";
  }

  /** Index of the first character that YAML 1.2 (5.1, c-printable) does not allow, or -1. */
  private static int firstUnprintable(String text) {
    for (int i = 0; i < text.length(); i += Character.charCount(text.codePointAt(i))) {
      int c = text.codePointAt(i);
      boolean printable =
          c == '\t'
              || c == '\n'
              || c == '\r'
              || (c >= 0x20 && c < 0x7F)
              || c == 0x85
              || (c >= 0xA0 && c <= 0xD7FF)
              || (c >= 0xE000 && c <= 0xFFFD && c != 0xFEFF)
              || c >= 0x10000;
      if (!printable) {
        return i;
      }
    }
    return -1;
  }

  private static Place placeAfter(String before) {
    String[] lines = before.split("\r\n|[\n\r]", -1);
    String last = lines[lines.length - 1];
    return new Place(lines.length, last.codePointCount(0, last.length()) + 1);
  }
}
