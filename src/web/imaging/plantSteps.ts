/** Where a plant stands. */
interface Place { readonly xMm: number; readonly yMm: number }

export const ARROWS: Readonly<Record<string, readonly [x: number, y: number]>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** The next place in a direction: near, and more along than aside. The same place where there is none; the first where none is picked. */
export function stepFrom(places: readonly Place[], from: number | undefined, [dx, dy]: readonly [number, number]): number {
  const here = from === undefined ? undefined : places[from];
  if (here === undefined || from === undefined) return 0;
  let [best, least] = [from, Number.POSITIVE_INFINITY];
  places.forEach((place, index) => {
    const [x, y] = [place.xMm - here.xMm, place.yMm - here.yMm];
    const [along, aside] = [x * dx + y * dy, Math.abs(x * dy - y * dx)];
    const cost = along + 2 * aside;
    if (along > 1 && aside <= along && cost < least) [best, least] = [index, cost];
  });
  return best;
}

/** The place nearest to a point within a reach, or undefined. */
export function nearestPlace(places: readonly Place[], xMm: number, yMm: number, reachMm: number): number | undefined {
  let [best, least]: [number | undefined, number] = [undefined, reachMm];
  places.forEach((place, index) => {
    const far = Math.hypot(place.xMm - xMm, place.yMm - yMm);
    if (far < least) [best, least] = [index, far];
  });
  return best;
}

/** Smallest distance between neighbours, mm; 150 where there are fewer than two. */
export function pitchOf(places: readonly Place[]): number {
  let least = Number.POSITIVE_INFINITY;
  const some = places.slice(0, 60);
  some.forEach((a, i) => some.slice(i + 1).forEach((b) => { least = Math.min(least, Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm)); }));
  return Number.isFinite(least) ? Math.max(10, least) : 150;
}
