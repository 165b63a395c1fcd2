/** The files of a demo with the first lot of each crop and stage only, one basin each, and few orders: a plan is there in a second or two. */
export function fewLots(files: Record<string, string>): Record<string, string> {
  const [head = '', ...rows] = linesOf(files['lots.csv']), kinds = new Set<string>();
  const kept = rows.filter((row) => { const [, crop, , stage] = row.split(','), kind = `${crop} ${stage}`, isNew = !kinds.has(kind); kinds.add(kind); return isNew; });
  const basins = new Set(kept.map((row) => row.split(',')[2])), lots = new Set(kept.map((row) => row.split(',')[0]));
  const only = (path: string, keep: (cells: readonly string[], i: number) => boolean) => { const [first = '', ...all] = linesOf(files[path]); return [first, ...all.filter((row, i) => keep(row.split(','), i)), ''].join('\n'); };
  return {
    ...files, 'lots.csv': [head, ...kept, ''].join('\n'), 'orders.csv': only('orders.csv', (_, i) => i % 20 === 0), 'samples.csv': only('samples.csv', ([, lot = '']) => lots.has(lot)),
    'readings.csv': only('readings.csv', ([, place = '']) => !place.startsWith('basin:') || basins.has(place.slice(6))),
  };
}

const linesOf = (text: string | undefined): string[] => (text ?? '').split('\n').filter(Boolean);
