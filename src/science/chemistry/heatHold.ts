/** Two points that are in use for returned solution: 95 C for 30 s (GPN "Water disinfection") and 85 C for 3 min (from memory). */
const HOTTER = { celsius: 95, seconds: 30 };
const COOLER = { celsius: 85, seconds: 180 };

/**
 * Seconds that returned solution has to be held at a temperature to be rid of fungi, bacteria and viruses. Between the two
 * points in use the time falls by the same factor with each degree (thermal death time, Bigelow 1921), above the hotter one it
 * is kept. Absent below 85 C, where nothing at hand says what would do.
 */
export function neededHoldS(celsius: number): number | undefined {
  if (!(celsius >= COOLER.celsius)) return undefined;
  if (celsius >= HOTTER.celsius) return HOTTER.seconds;
  const share = (celsius - COOLER.celsius) / (HOTTER.celsius - COOLER.celsius);
  return COOLER.seconds * (HOTTER.seconds / COOLER.seconds) ** share;
}
