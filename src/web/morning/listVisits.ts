import type { SheetVisit, StopOutcomeView } from '../../desk/contract.ts';

export interface VisitChoice { readonly station: string | undefined; readonly open: boolean }

/** The visits that are asked for, by the time at which they start: at the chosen station, else when they leave their berth. */
export function listVisits(visits: readonly SheetVisit[], outcomes: Readonly<Record<string, StopOutcomeView>>, choice: VisitChoice): readonly SheetVisit[] {
  const { station, open } = choice;
  return visits
    .filter((visit) => station === undefined || visit.stops.some((stop) => stop.station === station))
    .filter((visit) => !open || isOpen(visit, outcomes))
    .sort((a, b) => (beginsAt(a, station) < beginsAt(b, station) ? -1 : 1));
}

/** Some stop of it has not been marked. */
export function isOpen(visit: SheetVisit, outcomes: Readonly<Record<string, StopOutcomeView>>): boolean {
  return visit.stops.some((stop) => outcomes[`${visit.visit}/${stop.stop}`] === undefined && stop.result === undefined);
}

export function beginsAt(visit: SheetVisit, station: string | undefined): string {
  return visit.stops.find((stop) => stop.station === station)?.startAt ?? visit.leavesBerthAt;
}
