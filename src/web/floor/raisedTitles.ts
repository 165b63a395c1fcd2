import type { FloorAnswer } from '../../desk/contract.ts';

/** Size of a station's title on the map, in metres of the floor; a letter is about so wide. */
export const TITLE_M = 0.85;
const LETTER_M = 0.62 * TITLE_M;
/** Titles less than this apart in height stand on one line. */
const LINE_M = 1.2;

/** Stations whose title would run into that of the station before on the same line: it stands a line higher. */
export function raisedTitles(stations: FloorAnswer['stations']): ReadonlySet<string> {
  const raised = new Set<string>();
  const fromLeft = [...stations].sort((a, b) => a.atM[0] - b.atM[0]);
  fromLeft.forEach((station, i) => {
    const before = fromLeft[i - 1];
    if (before === undefined || raised.has(before.id) || Math.abs(before.atM[1] - station.atM[1]) > LINE_M) return;
    const needed = (LETTER_M * (before.title.length + station.title.length + 1)) / 2;
    if (station.atM[0] - before.atM[0] < needed) raised.add(station.id);
  });
  return raised;
}
