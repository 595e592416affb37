package tarnish.controller.journal;

import java.io.ByteArrayOutputStream;
import java.util.zip.DataFormatException;
import java.util.zip.Deflater;
import java.util.zip.Inflater;

/** Deflate with its check sum (RFC 1950), so that damage inside a block is noticed. */
final class Zip {
  private Zip() {}

  static byte[] pack(byte[] plain) {
    Deflater deflater = new Deflater();
    try {
      deflater.setInput(plain);
      deflater.finish();
      ByteArrayOutputStream packed = new ByteArrayOutputStream(plain.length / 2 + 64);
      byte[] part = new byte[8192];
      while (!deflater.finished()) {
        packed.write(part, 0, deflater.deflate(part));
      }
      return packed.toByteArray();
    } finally {
      deflater.end();
    }
  }

  static byte[] unpack(byte[] packed) {
    Inflater inflater = new Inflater();
    try {
      inflater.setInput(packed);
      ByteArrayOutputStream plain = new ByteArrayOutputStream(packed.length * 3);
      byte[] part = new byte[8192];
      while (!inflater.finished()) {
        int length = inflater.inflate(part);
        if (length == 0 && !inflater.finished()) {
          throw JournalException.damaged("a packed block of samples ends too early");
        }
        plain.write(part, 0, length);
      }
      return plain.toByteArray();
    } catch (DataFormatException e) {
      throw JournalException.damaged("a packed block of samples is wrong: " + e.getMessage());
    } finally {
      inflater.end();
    }
  }
}
