import type { ShopSearch } from './shopSearch.ts';

/** A proof first; where it takes long, it shares its turns with a search for shorter plans, which both profit from. `alone`: steps that go to the proof alone. */
export function proveAndSeek(proof: ShopSearch, seeker: ShopSearch, alone: number): ShopSearch {
  return {
    run(steps, isStopped) {
      const share = alone > 0 ? steps : Math.ceil(steps / 2);
      proof.run(share, isStopped);
      alone -= steps;
      if (share === steps || proof.isFinished()) return;
      seeker.run(steps - share, isStopped);
      const found = seeker.best();
      if (found !== undefined) proof.hearOf(found.ticks);
    },
    best() {
      const [proved, sought] = [proof.best(), seeker.best()];
      return sought !== undefined && (proved === undefined || sought.ticks < proved.ticks) ? sought : proved;
    },
    boundTicks: proof.boundTicks,
    hearOf: proof.hearOf,
    isFinished: proof.isFinished,
  };
}
