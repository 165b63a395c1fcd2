import type { Feed } from './feed.ts';
import type { SourceWater } from './sourceWaters.ts';

/** Where the solution goes that is drained from a basin. */
export interface DrainRoute {
  readonly basin: string;
  readonly litres: number;
  /** Return tank; absent: discharged. */
  readonly to: string | undefined;
  readonly title: string;
  readonly reason: string;
}

/** A return tank takes solution only while its sodium and chloride stay below this share of the strictest crop's maxima. */
const SALT_SHARE = 0.8;

/**
 * Each drained batch goes into the first return tank that has room and would not grow too salty, else to discharge; what is
 * drawn from a tank today makes room in it. In the order of the feeds.
 */
export function routeDrains(feeds: readonly Feed[], sources: readonly SourceWater[], strictest: { readonly sodiumMmolPerL: number; readonly chlorideMmolPerL: number }): DrainRoute[] {
  const tanks = sources.filter(({ source }) => source.kind === 'return').map(({ source, availableL, mmolPerL }) => {
    const drawnL = feeds.reduce((sum, feed) => sum + (feed.draws.find((draw) => draw.from.source.id === source.id)?.litres ?? 0), 0);
    return { source, heldL: availableL - drawnL, sodium: mmolPerL.Na ?? 0, chloride: mmolPerL.Cl ?? 0 };
  });
  return feeds.filter(({ drainL }) => drainL > 0).map((feed): DrainRoute => {
    const { Na = 0, Cl = 0 } = feed.request.present.mmolPerL;
    const batch = { basin: feed.request.basin.id, litres: feed.drainL };
    const approved = feed.request.fixed !== undefined;
    for (const tank of tanks) {
      if (approved && feed.request.fixed?.drainTo !== tank.source.id) continue;
      const totalL = tank.heldL + feed.drainL;
      if (!approved && totalL > tank.source.capacityL) continue;
      const sodium = (tank.sodium * tank.heldL + Na * feed.drainL) / totalL;
      const chloride = (tank.chloride * tank.heldL + Cl * feed.drainL) / totalL;
      if (!approved && (sodium > SALT_SHARE * strictest.sodiumMmolPerL || chloride > SALT_SHARE * strictest.chlorideMmolPerL)) continue;
      Object.assign(tank, { heldL: totalL, sodium, chloride });
      return { ...batch, to: tank.source.id, title: tank.source.title, reason: approved ? 'as approved' : `room for it; sodium would be ${sodium.toFixed(2)} mmol/L` };
    }
    return { ...batch, to: undefined, title: 'discharge', reason: approved ? 'as approved' : tanks.length === 0 ? 'there is no return tank' : 'no return tank has room or stays clear of its salt limit' };
  });
}
