package tarnish.controller.service;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;

/** JSON in and out of the service: strict when reading, no NaN when writing. */
final class Json {
  private static final int NESTING_MAX = 6;
  private static final int NUMBER_LENGTH_MAX = 40;
  private static final MathContext DRAWN = new MathContext(7);
  private static final double[] POWERS = powers();

  private static final ObjectMapper MAPPER = mapper();

  private Json() {}

  private static ObjectMapper mapper() {
    JsonFactory factory =
        JsonFactory.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .streamReadConstraints(
                StreamReadConstraints.builder()
                    .maxNestingDepth(NESTING_MAX)
                    .maxNumberLength(NUMBER_LENGTH_MAX)
                    .build())
            .build();
    SimpleModule numbers = new SimpleModule();
    numbers.addSerializer(Double.class, new FiniteOrNull(Double.class));
    numbers.addSerializer(double.class, new FiniteOrNull(double.class));
    return JsonMapper.builder(factory)
        .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
        .addModule(numbers)
        .build();
  }

  static byte[] write(Object value) {
    try {
      return MAPPER.writeValueAsBytes(value);
    } catch (JsonProcessingException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Reads one JSON document.
   *
   * @throws Refused if it is not well formed, repeats a key, nests deeply or goes on after its end
   */
  static JsonNode read(byte[] body) {
    try {
      return MAPPER.readTree(body);
    } catch (JsonProcessingException e) {
      String where =
          e.getLocation() == null
              ? ""
              : " (line "
                  + e.getLocation().getLineNr()
                  + ", column "
                  + e.getLocation().getColumnNr()
                  + ")";
      throw Refused.malformed("The request is not one well-formed JSON document" + where + ".");
    } catch (IOException e) {
      throw Refused.malformed("The request is not JSON in UTF-8.");
    }
  }

  /** Enough digits to draw, so that a long span stays small; empty where there is no number. */
  static Double drawn(double value) {
    if (!Double.isFinite(value)) {
      return null;
    }
    double size = StrictMath.abs(value);
    if (!(size >= 1e-9 && size < 1e6)) {
      return new BigDecimal(value).round(DRAWN).doubleValue();
    }
    // Many are drawn at once: a whole number of up to 7 digits over an exact power of ten is the
    // nearest double to the rounded decimal, and much quicker.
    int decimals = DRAWN.getPrecision() - 1 - (int) StrictMath.floor(StrictMath.log10(size));
    double power = POWERS[decimals];
    return StrictMath.rint(value * power) / power;
  }

  private static double[] powers() {
    double[] powers = new double[DRAWN.getPrecision() + 11];
    for (int i = 0; i < powers.length; i++) {
      powers[i] = Double.parseDouble("1e" + i);
    }
    return powers;
  }

  /**
   * JSON has no word for NaN or infinity: both are written as null, which the page shows as a gap.
   */
  private static final class FiniteOrNull extends StdSerializer<Double> {
    private static final long serialVersionUID = 1L;

    FiniteOrNull(Class<Double> type) {
      super(type);
    }

    @Override
    public void serialize(Double value, JsonGenerator out, SerializerProvider provider)
        throws IOException {
      if (Double.isFinite(value)) {
        out.writeNumber(value);
      } else {
        out.writeNull();
      }
    }
  }
}
