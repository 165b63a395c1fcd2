import type { BasinStanding, FloorBasin } from '../../desk/contract.ts';
import { BasinGlyph } from './BasinGlyph.tsx';
import { STANDINGS } from './standings.ts';

/** What the marks mean and how many basins carry each; pressing one shows only those. */
export function FloorKey({ basins, only, showOnly }: { readonly basins: readonly FloorBasin[]; readonly only: BasinStanding | undefined; readonly showOnly: (standing: BasinStanding | undefined) => void }) {
  return (
    <div className="floor-key" role="group" aria-label="Key: press one to show only these">
      {STANDINGS.map(({ standing, meaning }) => {
        const number = basins.filter((basin) => basin.standing === standing).length;
        return (
          <button key={standing} type="button" aria-pressed={only === standing} disabled={number === 0} title={meaning} onClick={() => showOnly(only === standing ? undefined : standing)}>
            <svg viewBox="-1 -1 34 18" width="34" height="18" aria-hidden="true"><BasinGlyph box={{ x: 0, y: 0, width: 32, height: 16 }} standing={standing} /></svg>
            {standing} <span className="figures">{number}</span>
          </button>
        );
      })}
    </div>
  );
}
