package tarnish.shared.magnetism;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class MagneticSheetTest {
  private static Map<String, String> examples() {
    Map<String, String> texts = new HashMap<>();
    MagneticSheet.fields().forEach(field -> texts.put(field.key(), field.example()));
    return texts;
  }

  private static String value(List<MagneticSheet.Line> lines, String what) {
    return lines.stream().filter(l -> l.what().equals(what)).findFirst().orElseThrow().value();
  }

  /** The reference weighed as sample gives itself: 16.44 × 10⁻⁶ cm³/g (Figgis and Nyholm 1958). */
  @Test
  void theReferenceAsSampleGivesItsOwnSusceptibility() {
    Map<String, String> texts = examples();
    texts.put("sample without", texts.get("reference without"));
    texts.put("sample with", texts.get("reference with"));
    texts.put("sample mass", texts.get("reference mass"));
    texts.put("temperature", "20 °C ± 0.1 K");
    texts.put("filled volume", "");
    String cgs = value(MagneticSheet.evaluate(texts), "the same in cgs");
    assertTrue(cgs.startsWith("16.4"), cgs);
  }

  @Test
  void aSlipIsNamedByItsLine() {
    Map<String, String> texts = examples();
    texts.put("sample mass", "0.5 mL ± 0.1 mL");
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> MagneticSheet.evaluate(texts));
    assertTrue(e.getMessage().startsWith("'sample mass': found"), e.getMessage());
    texts.put("sample mass", "0.5 g ± 1 mg");
    texts.put("gas", "helium");
    e = assertThrows(IllegalArgumentException.class, () -> MagneticSheet.evaluate(texts));
    assertEquals("'gas': found 'helium', expected air or inert.", e.getMessage());
  }
}
