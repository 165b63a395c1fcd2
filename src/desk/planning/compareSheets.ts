import type { PlanChanges, PlanSheet, SheetVisit, StopOutcomeView } from '../contract.ts';

/** A start that shifts by less than this is the same place in the day. */
const SAME_START_S = 300;

/** How a new plan of the day differs from the one in force, as far as the floor has not done it yet. */
export function compareSheets(inForce: PlanSheet, outcomes: Readonly<Record<string, StopOutcomeView>>, next: PlanSheet): PlanChanges {
  const open = inForce.visits.filter((visit) => !isFinished(visit, outcomes));
  const before = new Map(open.map((visit) => [visit.visit, visit]));
  const finished = new Set(inForce.visits.filter((visit) => isFinished(visit, outcomes)).map((visit) => visit.visit));
  const after = new Map(next.visits.filter((visit) => !finished.has(visit.visit)).map((visit) => [visit.visit, visit]));
  const added = [...after.keys()].filter((id) => !before.has(id)).sort();
  const dropped = [...before.keys()].filter((id) => !after.has(id)).sort();
  const moved = [...after.values()].flatMap((visit) => movedFrom(before.get(visit.visit), visit));
  return { added, dropped, moved, sentence: changeSentence(added.length, dropped.length, moved.length) };
}

function isFinished(visit: SheetVisit, outcomes: Readonly<Record<string, StopOutcomeView>>): boolean {
  return visit.stops.every((stop) => outcomes[`${visit.visit}/${stop.stop}`] !== undefined || stop.result !== undefined);
}

function movedFrom(was: SheetVisit | undefined, is: SheetVisit): PlanChanges['moved'] {
  const fromAt = was?.stops[0]?.startAt;
  const toAt = is.stops[0]?.startAt;
  if (fromAt === undefined || toAt === undefined || Math.abs(Date.parse(fromAt) - Date.parse(toAt)) < SAME_START_S * 1000) return [];
  return [{ visit: is.visit, fromAt, toAt }];
}

function changeSentence(added: number, dropped: number, moved: number): string {
  const parts = [
    ...(added ? [`${count(added, 'visit')} added`] : []),
    ...(dropped ? [`${count(dropped, 'visit')} dropped`] : []),
    ...(moved ? [`${count(moved, 'visit')} moved by five minutes or more`] : []),
  ];
  return parts.length === 0 ? 'The rest of the day stays as approved.' : `${parts.join(', ')}.`;
}

const count = (number: number, word: string) => `${number} ${word}${number === 1 ? '' : 's'}`;
