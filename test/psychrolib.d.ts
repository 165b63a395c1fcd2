/** The part of psychrolib 1.1.1 (no types shipped) that serves as test oracle; Pa, C, kg/kg. */
declare module 'psychrolib' {
  interface Psychrolib {
    readonly SI: unknown;
    SetUnitSystem(system: unknown): void;
    GetSatVapPres(airC: number): number;
    GetHumRatioFromVapPres(vapourPa: number, pressurePa: number): number;
    GetMoistAirEnthalpy(airC: number, ratio: number): number;
    GetMoistAirDensity(airC: number, ratio: number, pressurePa: number): number;
    GetHumRatioFromTWetBulb(dryC: number, wetC: number, pressurePa: number): number;
  }
  const psychrolib: Psychrolib;
  export default psychrolib;
}
