package tarnish.controller.control;

/**
 * One tick's view of the gas.
 *
 * @param pressurePa as measured
 * @param heat temperatures
 * @param noisePa standard deviation of one pressure reading
 * @param leakMolPerS gas leaking in, by the leak test
 * @param leakUncertaintyMolPerS its standard uncertainty
 * @param oxygen flow through the oxygen valve by the rig file, 0 while shut, in mol/s
 * @param inert flow through the inert valve likewise
 * @param pumping whether pump and vacuum valve are on
 * @param venting whether the vent is open
 * @param tickS time since the last tick
 */
record GasView(
    double pressurePa,
    GasModel.Heat heat,
    double noisePa,
    double leakMolPerS,
    double leakUncertaintyMolPerS,
    double oxygen,
    double inert,
    boolean pumping,
    boolean venting,
    double tickS) {}
