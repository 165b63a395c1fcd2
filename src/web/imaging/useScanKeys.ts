import type { KeyboardEvent } from 'react';
import type { PlantMark, ScannedPlant } from '../../desk/contract.ts';
import { SCORE_CHOICES } from './scoreChoices.ts';

interface Work {
  readonly plants: readonly ScannedPlant[];
  readonly picked: number | undefined;
  readonly pick: (plant: number | undefined) => void;
  /** Undefined where nothing may be scored now. */
  readonly send: ((mark: PlantMark) => void) | undefined;
}

const TYPED_INTO = 'input, select, textarea, [contenteditable]';

/** The keys of the work on a scan: a letter scores, U takes back, N and B go through the plants to look at, Escape lets go. They work while the focus is within. */
export function useScanKeys({ plants, picked, pick, send }: Work): (event: KeyboardEvent<HTMLElement>) => void {
  return (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || (event.target as Element).matches(TYPED_INTO)) return;
    const key = event.key.toUpperCase();
    const plant = picked === undefined ? undefined : plants[picked];
    if (key === 'N' || key === 'B') return take(event, () => pick(nextToLookAt(plants, picked, key === 'N' ? 1 : -1)));
    if (key === 'ESCAPE') return pick(undefined);
    if (plant === undefined) return undefined;
    if (key === 'O') return take(event, () => event.currentTarget.querySelector<HTMLButtonElement>('.own-words-button')?.click());
    const choice = key === 'U' ? 'unscored' : SCORE_CHOICES.find(({ letter }) => letter === key)?.class;
    if (choice !== undefined && send !== undefined) return take(event, () => send({ raft: plant.raft, position: plant.position, class: choice }));
    return undefined;
  };
}

function take(event: KeyboardEvent, act: () => void): void {
  event.preventDefault();
  act();
}

/** The next plant with a reason after the picked one, round and round; the picked one where there is none. */
export function nextToLookAt(plants: readonly Pick<ScannedPlant, 'reasons'>[], picked: number | undefined, step: 1 | -1): number | undefined {
  for (let far = 1; far <= plants.length; far += 1) {
    const at = ((picked ?? (step === 1 ? -1 : 0)) + step * far + plants.length * 2) % plants.length;
    if ((plants[at]?.reasons.length ?? 0) > 0) return at;
  }
  return picked;
}
