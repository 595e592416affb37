package tarnish.shared.vessel;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Materials of flange seals and the highest temperature each usually stands in air, steadily.
 *
 * <p>Common practice, rounded to what most grades stand; the maker's figure for the very seal comes
 * first. Dry hot oxygen is harsher than air: it shortens the life of every elastomer, and
 * hydrocarbon rubbers (NBR, EPDM) and greases can burn in it.
 */
public enum SealMaterial {
  NBR("NBR elastomer", 100, "nbr", "nitrile"),
  EPDM("EPDM elastomer", 130, "epdm", "epm"),
  SILICONE("silicone elastomer", 200, "silicone", "vmq"),
  FKM("FKM elastomer", 200, "fkm", "fpm", "fluoroelastomer"),
  PTFE("PTFE", 260, "ptfe", "polytetrafluoroethylene"),
  PERFLUOROELASTOMER("perfluoroelastomer", 260, "ffkm", "perfluoroelastomer"),
  /** Knife-edge flange with a copper gasket; in air or oxygen hot copper scales at its rim. */
  METAL("metal", 450, "metal", "copper");

  private static final double ZERO_CELSIUS_K = 273.15;

  private final String words;
  private final double maxCelsius;
  private final List<String> keywords;

  SealMaterial(String words, double maxCelsius, String... keywords) {
    this.words = words;
    this.maxCelsius = maxCelsius;
    this.keywords = List.of(keywords);
  }

  /** As a rig file calls it. */
  public String words() {
    return words;
  }

  /** Highest steady temperature in K. */
  public double maxK() {
    return maxCelsius + ZERO_CELSIUS_K;
  }

  /**
   * The material meant by what a person wrote, e.g. "FKM elastomer", "nitrile rubber", "Copper
   * gasket"; where several are named ("FKM in PTFE"), the one that fails first.
   *
   * @return empty if no known material is named
   */
  public static Optional<SealMaterial> find(String written) {
    List<String> named = List.of(written.toLowerCase(Locale.ROOT).split("[^a-z]+"));
    for (SealMaterial material : values()) {
      // Declared in rising order of temperature, so the first found is the one that fails first.
      for (String keyword : material.keywords) {
        if (named.contains(keyword)) {
          return Optional.of(material);
        }
      }
    }
    return Optional.empty();
  }

  /** All materials with their limits in one line, for a message to a person. */
  public static String list() {
    List<String> parts = new ArrayList<>();
    for (SealMaterial material : values()) {
      parts.add("%s %.0f °C".formatted(material.words, material.maxCelsius));
    }
    return String.join(", ", parts);
  }
}
