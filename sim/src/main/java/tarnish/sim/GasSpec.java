package tarnish.sim;

import tarnish.shared.gas.Iso6358;
import tarnish.shared.gas.TwoZoneVolume;

/**
 * The gas side as it truly is.
 *
 * @param volume true hot and cold gas space
 * @param oxygenPath the oxygen valve
 * @param oxygenSupplyPa absolute pressure upstream of the oxygen valve
 * @param oxygenFraction true amount fraction of O₂ in the oxygen source
 * @param inertPath the inert gas valve
 * @param inertSupplyPa absolute pressure upstream of the inert valve
 * @param inertOxygenFraction true amount fraction of O₂ in the inert source
 * @param inertKgPerMol molar mass of the inert gas
 * @param vent the vent, to the room
 * @param pumpM3PerS pumping speed at the vessel
 * @param pumpUltimatePa lowest pressure of the pump
 * @param leakM3PerS leak conductance to the room
 * @param adsorbedMol gas (water, mostly) on the walls after they have seen air
 * @param outgassingS time constant with which the walls give it up, and take it up in air
 * @param openingM3PerS exchange of gas by diffusion through the open neck
 * @param openingReliefPerS how fast the open vessel takes the room's pressure, 1/s
 */
public record GasSpec(
    TwoZoneVolume volume,
    Iso6358 oxygenPath,
    double oxygenSupplyPa,
    double oxygenFraction,
    Iso6358 inertPath,
    double inertSupplyPa,
    double inertOxygenFraction,
    double inertKgPerMol,
    Iso6358 vent,
    double pumpM3PerS,
    double pumpUltimatePa,
    double leakM3PerS,
    double adsorbedMol,
    double outgassingS,
    double openingM3PerS,
    double openingReliefPerS) {}
