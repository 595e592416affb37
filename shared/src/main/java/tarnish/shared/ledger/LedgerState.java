package tarnish.shared.ledger;

import java.util.Optional;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.estimate.Witnesses;

/**
 * How much solid there is and what it has become.
 *
 * @param atS time of the last entry
 * @param unitsMol formula units of the charge that are there, in mol
 * @param massKg mass of the solid as it should be now
 * @param oxygenPerUnit oxygen gained per formula unit, by gas and mass together
 * @param byGas the same by the gas account alone since the last reference mass; empty if there was
 *     no uptake entry
 * @param byMass the same by the last weighing; empty before the first one
 * @param witnesses how gas and mass agreed at the last weighing; empty where one of them was
 *     missing
 */
public record LedgerState(
    double atS,
    Estimate unitsMol,
    Estimate massKg,
    Estimate oxygenPerUnit,
    Optional<Estimate> byGas,
    Optional<Estimate> byMass,
    Optional<Witnesses> witnesses) {}
