package tarnish.shared.vessel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class SealMaterialTest {
  @ParameterizedTest
  @CsvSource({
    "FKM elastomer, FKM, 200",
    "fkm, FKM, 200",
    "FFKM, PERFLUOROELASTOMER, 260",
    "perfluoroelastomer, PERFLUOROELASTOMER, 260",
    "Silicone rubber, SILICONE, 200",
    "nitrile rubber, NBR, 100",
    "EPDM, EPDM, 130",
    "PTFE-ring, PTFE, 260",
    "copper gasket, METAL, 450",
    "FKM core in a PTFE jacket, FKM, 200"
  })
  void aMaterialIsFoundByWhatPeopleWrite(String written, SealMaterial material, double celsius) {
    assertEquals(Optional.of(material), SealMaterial.find(written));
    assertEquals(celsius + 273.15, material.maxK(), 1e-9);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "glass", "fk", "x fkmx", "nonmetallic"})
  void whatNamesNoKnownMaterialIsNotGuessed(String written) {
    assertEquals(Optional.empty(), SealMaterial.find(written));
  }

  @ParameterizedTest
  @EnumSource
  void everyMaterialIsFoundByItsOwnWordsAndListed(SealMaterial material) {
    assertEquals(Optional.of(material), SealMaterial.find(material.words()));
    assertTrue(SealMaterial.list().contains(material.words()));
  }

  @Test
  void materialsStandInRisingOrderSoThatTheFirstNamedFailsFirst() {
    double last = 0;
    for (SealMaterial material : SealMaterial.values()) {
      assertTrue(material.maxK() >= last, material.words());
      last = material.maxK();
    }
  }
}
