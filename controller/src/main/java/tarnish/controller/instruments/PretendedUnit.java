package tarnish.controller.instruments;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Switch;

/**
 * A remote input and output unit on Modbus RTU, station 5, written from the Modbus Application
 * Protocol V1.1b3 (sections 6.1, 6.3 to 6.6) and Modbus over Serial Line V1.02 (check sum, 6.2.2).
 *
 * <p>Input registers: 0 seal and 1 room temperature as int16 in 0.1 °C, 2-3 vessel pressure as
 * float32 in Pa, high word first, 4-5 supply pressure as float32, low word first, 6 room pressure
 * as uint16 in 10 Pa, 7 room oxygen as the µA of a 4-20 mA loop of 0 to 25 %. Coils 0 to 3: inert,
 * vacuum, vent, pump.
 */
public final class PretendedUnit implements Instrument {
  private static final int STATION = 5;
  private static final double CELSIUS_ZERO_K = 273.15;
  private static final int ILLEGAL_FUNCTION = 1;
  private static final int ILLEGAL_ADDRESS = 2;
  private static final int ILLEGAL_VALUE = 3;
  private static final int REGISTERS = 8;
  private static final int LONGEST = 256;
  private static final Switch[] COILS = {Switch.INERT, Switch.VACUUM, Switch.VENT, Switch.PUMP};

  private final PretendedBench bench;
  private byte[] heard = NOTHING;

  public PretendedUnit(PretendedBench bench) {
    this.bench = bench;
  }

  /** Frames are told apart by their check sum, not by silence: a pseudo-terminal has no baud. */
  @Override
  public byte[] hear(byte[] bytes) {
    byte[] all = Arrays.copyOf(heard, heard.length + bytes.length);
    System.arraycopy(bytes, 0, all, heard.length, bytes.length);
    for (int from = 0; from + 8 <= all.length; from++) {
      byte[] frame = Arrays.copyOfRange(all, from, from + 8);
      if (crc(frame, 6) == ((frame[6] & 0xFF) | (frame[7] & 0xFF) << 8)) {
        heard = Arrays.copyOfRange(all, from + 8, all.length);
        return (frame[0] & 0xFF) == STATION ? sealed(answer(frame)) : NOTHING;
      }
    }
    heard = all.length > LONGEST ? NOTHING : all;
    return NOTHING;
  }

  private byte[] answer(byte[] frame) {
    int function = frame[1];
    int address = (frame[2] & 0xFF) << 8 | frame[3] & 0xFF;
    int value = (frame[4] & 0xFF) << 8 | frame[5] & 0xFF;
    return switch (function) {
      case 1 -> coils(address, value);
      case 4 -> registers(address, value);
      case 5 -> setCoil(frame, address, value);
      default -> refusal(function, ILLEGAL_FUNCTION);
    };
  }

  private byte[] coils(int address, int count) {
    if (count < 1 || address + count > COILS.length) {
      return refusal(1, ILLEGAL_ADDRESS);
    }
    int bits = 0;
    for (int i = 0; i < count; i++) {
      bits |= (bench.isOn(COILS[address + i]) ? 1 : 0) << i;
    }
    return new byte[] {STATION, 1, 1, (byte) bits};
  }

  private byte[] setCoil(byte[] frame, int address, int value) {
    if (address >= COILS.length) {
      return refusal(5, ILLEGAL_ADDRESS);
    }
    if (value != 0 && value != 0xFF00) {
      return refusal(5, ILLEGAL_VALUE);
    }
    bench.set(COILS[address], value != 0);
    return Arrays.copyOf(frame, 6);
  }

  private byte[] registers(int address, int count) {
    if (count < 1 || address + count > REGISTERS) {
      return refusal(4, ILLEGAL_ADDRESS);
    }
    int[] all = registers();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(STATION);
    out.write(4);
    out.write(2 * count);
    for (int i = address; i < address + count; i++) {
      out.write(all[i] >> 8);
      out.write(all[i]);
    }
    return out.toByteArray();
  }

  private int[] registers() {
    int vessel = Float.floatToIntBits((float) bench.value(Channel.VESSEL_PRESSURE));
    int supply = Float.floatToIntBits((float) bench.value(Channel.SUPPLY_PRESSURE));
    double loopA = 0.004 + 0.016 * bench.value(Channel.ROOM_OXYGEN) / 0.25;
    return new int[] {
      tenthsCelsius(Channel.SEAL_TEMPERATURE),
      tenthsCelsius(Channel.ROOM_TEMPERATURE),
      vessel >>> 16,
      vessel & 0xFFFF,
      supply & 0xFFFF,
      supply >>> 16,
      (int) Math.round(bench.value(Channel.ROOM_PRESSURE) / 10),
      (int) Math.round(loopA * 1e6),
    };
  }

  private int tenthsCelsius(Channel channel) {
    return (int) Math.round((bench.value(channel) - CELSIUS_ZERO_K) * 10);
  }

  private static byte[] refusal(int function, int code) {
    return new byte[] {STATION, (byte) (function | 0x80), (byte) code};
  }

  private static byte[] sealed(byte[] answer) {
    int crc = crc(answer, answer.length);
    byte[] frame = Arrays.copyOf(answer, answer.length + 2);
    frame[answer.length] = (byte) crc;
    frame[answer.length + 1] = (byte) (crc >> 8);
    return frame;
  }

  /** CRC-16 with the polynomial A001h, from FFFFh on. */
  static int crc(byte[] bytes, int length) {
    int crc = 0xFFFF;
    for (int i = 0; i < length; i++) {
      crc ^= bytes[i] & 0xFF;
      for (int bit = 0; bit < 8; bit++) {
        crc = (crc & 1) != 0 ? crc >> 1 ^ 0xA001 : crc >> 1;
      }
    }
    return crc;
  }
}
