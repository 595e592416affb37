package tarnish.controller.devices.board;

/** Numbers out of bytes, high byte first. */
final class Bytes {
  private Bytes() {}

  static int uint8(byte[] bytes, int at) {
    return bytes[at] & 0xFF;
  }

  static int uint16(byte[] bytes, int at) {
    return uint8(bytes, at) << 8 | uint8(bytes, at + 1);
  }

  static int int32(byte[] bytes, int at) {
    return uint16(bytes, at) << 16 | uint16(bytes, at + 2);
  }
}
