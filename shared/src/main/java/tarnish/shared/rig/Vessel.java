package tarnish.shared.rig;

import tarnish.shared.gas.TwoZoneVolume;

/**
 * The glass vessel and its seal.
 *
 * @param name as a recipe refers to it
 * @param glass its material
 * @param boreM inside diameter in m
 * @param wallM least wall thickness in m
 * @param volume hot and cold gas space
 * @param hotStandardUncertaintyM3 of the hot volume
 * @param coldStandardUncertaintyM3 of the cold volume
 * @param sealMaterial in words, e.g. "FKM elastomer"
 * @param sealMaxK temperature rating of the seal in K
 */
public record Vessel(
    String name,
    Glass glass,
    double boreM,
    double wallM,
    TwoZoneVolume volume,
    double hotStandardUncertaintyM3,
    double coldStandardUncertaintyM3,
    String sealMaterial,
    double sealMaxK) {

  /** Glass of a vessel; the words are those of a rig file. */
  public enum Glass {
    FUSED_QUARTZ("fused quartz"),
    BOROSILICATE("borosilicate 3.3");

    private final String words;

    Glass(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
