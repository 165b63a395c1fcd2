import type { PoolingAnswer, PoolingProblem } from '../../src/planning/solver/pooling/poolingProblem.ts';

/**
 * What an answer breaks, and what it costs, counted from its shares and flows alone: nothing of this is shared with the
 * solver. Tolerances are relative to the size of the flows.
 */
export function checkPooling(problem: PoolingProblem, { share, flow, directFlow }: Pick<PoolingAnswer, 'share' | 'flow' | 'directFlow'>, tolerance = 1e-6): { broken: string[]; cost: number } {
  const { sources, pools, products, intoPool, outOfPool, direct, qualities } = problem;
  const broken: string[] = [];
  const hold = (low: number, value: number, high: number, what: string, size = 1) => {
    const room = tolerance * Math.max(1, size);
    if (!(value >= low - room && value <= high + room)) broken.push(`${what}: ${low} <= ${value} <= ${high}`);
  };
  pools.forEach(({ id, capacity }, l) => {
    const shares = share.filter((_, a) => intoPool[a]!.pool === l);
    const out = flow.filter((_, b) => outOfPool[b]!.pool === l).reduce((sum, each) => sum + each, 0);
    if (out > 0) hold(1, shares.reduce((sum, each) => sum + each, 0), 1, `shares of ${id}`);
    hold(0, out, capacity, `pool ${id}`, capacity);
  });
  // Every litre by where it comes from and where it goes.
  const moved = [
    ...outOfPool.flatMap(({ pool, product, cost = 0 }, b) => intoPool.flatMap((arc, a) => (arc.pool === pool ? [{ source: arc.source, product, amount: share[a]! * flow[b]!, arcCost: cost }] : []))),
    ...direct.map(({ source, product, cost = 0 }, d) => ({ source, product, amount: directFlow[d]!, arcCost: cost })),
  ];
  for (const { amount } of moved) if (amount < -tolerance) broken.push(`negative flow ${amount}`);
  outOfPool.forEach(({ most }, b) => hold(0, flow[b]!, most, `arc out of pool ${b}`, most));
  direct.forEach(({ most }, d) => hold(0, directFlow[d]!, most, `direct arc ${d}`, most));
  intoPool.forEach(({ mostShare = 1 }, a) => hold(0, share[a]!, mostShare, `share ${a}`));
  sources.forEach(({ id, least, most }, i) => hold(least, moved.filter((is) => is.source === i).reduce((sum, is) => sum + is.amount, 0), most, `source ${id}`, most));
  let cost = 0;
  products.forEach((product, j) => {
    const into = moved.filter((is) => is.product === j);
    const amount = into.reduce((sum, is) => sum + is.amount, 0);
    hold(product.least, amount, product.most, `product ${product.id}`, product.most);
    cost -= product.price * amount;
    qualities.forEach((name, k) => {
      const held = into.reduce((sum, is) => sum + is.amount * sources[is.source]!.quality[k]!, 0);
      cost -= (product.worth?.[k] ?? 0) * held;
      const [low, high] = [product.qualityLow[k] ?? -Infinity, product.qualityHigh[k] ?? Infinity];
      const size = Math.max(...into.map((is) => Math.abs(sources[is.source]!.quality[k]!)), 1) * Math.max(1, product.most);
      hold(low * amount || (low === -Infinity ? -Infinity : 0), held, high === Infinity ? Infinity : high * amount, `${name} of ${product.id}`, size);
    });
  });
  cost += moved.reduce((sum, is) => sum + is.amount * (sources[is.source]!.cost + is.arcCost), 0);
  return { broken, cost };
}
