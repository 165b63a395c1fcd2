import { BRANDIMARTE } from './brandimarteShops.ts';
import { MULTI_PURPOSE } from './multiPurposeShops.ts';
import type { PublishedShop } from './publishedShops.ts';
import { readFlexibleJobs } from './readFlexibleJobs.ts';

/**
 * Published shops with alternative machines. A shop: its name and best-known makespan; jobs and machines; a line a job: operations, and for each the number of
 * alternatives with machine and duration.
 *
 * FJSPT: L. Deroussi & S. Norre 2010 (MISTA; two vehicles), as transcribed at github.com/wangyuting9836/FJSP_AGV_MILP, benchmark/FJSPT, commit 30b3dcf; makespans as published
 * there and by Berterottiere, Dauzere-Peres & Yugma 2024 (EJOR 312:890-909); FJSPT7 is 108, not 112, since a plan of 108 stands there.
 */
const WITH_VEHICLES = `
FJSPT1 134
7 8
3 2 1 16 2 16 2 3 32 4 32 2 7 24 8 24
3 2 1 40 2 40 2 5 20 6 20 2 3 36 4 36
3 2 5 24 6 24 2 7 16 8 16 2 1 30 2 30
2 2 7 28 8 28 2 3 36 4 36
2 2 5 20 6 20 2 1 30 2 30
3 2 1 16 2 16 2 3 32 4 32 2 7 24 8 24
3 2 1 40 2 40 2 5 20 6 20 2 3 36 4 36
FJSPT4 114
5 8
3 2 7 22 8 22 2 1 20 2 20 2 3 14 4 14
3 2 5 24 6 24 2 3 20 4 20 2 7 16 8 16
4 2 3 14 4 14 2 5 20 6 20 2 1 18 2 18 2 5 16 6 16
4 2 3 14 4 14 2 7 16 8 16 2 1 24 2 24 2 3 12 4 12
5 2 1 18 2 18 2 3 14 4 14 2 7 16 8 16 2 3 20 4 20 2 5 16 6 16
FJSPT6 138
6 8
3 2 1 18 2 18 2 3 22 4 22 2 7 14 8 14
3 2 1 38 2 38 2 3 40 4 40 2 7 26 8 26
3 2 3 28 4 28 2 5 40 6 40 2 7 18 8 18
3 2 3 28 4 28 2 5 40 6 40 2 7 18 8 18
3 2 1 22 2 22 2 5 32 6 32 2 7 16 8 16
3 2 1 20 2 20 2 5 24 6 24 2 7 20 8 20
FJSPT7 108
8 8
2 2 1 12 2 12 2 7 12 8 12
2 2 3 22 4 22 2 7 18 8 18
2 2 3 18 4 18 2 7 14 8 14
2 2 5 32 6 32 2 7 14 8 14
2 2 1 18 2 18 2 5 36 6 36
3 2 3 26 4 26 2 5 38 6 38 2 7 12 8 12
3 2 1 20 2 20 2 3 18 4 18 2 5 26 6 26
3 2 1 22 2 22 2 3 18 4 18 2 7 16 8 16`;

const TRAVEL = [
  [0, 6, 8, 6, 8, 10, 12, 10, 12], [8, 0, 2, 8, 2, 4, 6, 4, 6], [6, 10, 0, 10, 8, 2, 4, 6, 4], [12, 4, 6, 0, 6, 8, 10, 8, 10], [10, 2, 4, 6, 0, 6, 8, 2, 8],
  [8, 8, 2, 8, 6, 0, 6, 4, 2], [6, 10, 8, 10, 8, 6, 0, 6, 4], [12, 4, 6, 4, 2, 8, 10, 0, 10], [10, 6, 4, 6, 4, 2, 8, 2, 0],
];

/** mk: P. Brandimarte 1993 (Annals of Operations Research 41:157-183), as transcribed at github.com/SchedulingLab/fjsp-instances (MIT licence), commit f960b0b; machines from 0. */
const WITHOUT_VEHICLES = `
mk01 40
10 6
6 2 0 5 2 4 3 4 3 2 5 1 1 2 2 4 5 2 3 5 5 1 6 0 1 1 2 1 3 5 6 2 6 3 3
5 1 1 6 1 2 1 1 0 2 2 1 6 3 6 3 5 5 1 6 0 1
5 1 1 6 2 2 4 5 2 3 5 5 1 6 0 1 3 2 4 1 6 5 6 2 0 1 4 5
5 3 5 5 1 6 0 1 1 1 6 1 2 1 3 4 3 2 5 1 1 2 2 4 5 2
6 3 4 3 2 5 1 1 3 5 5 1 6 0 1 1 1 6 2 0 5 2 4 2 1 6 3 6 3 2 4 1 6 5 6
6 2 2 4 5 2 1 0 2 3 2 4 1 6 5 6 1 1 6 3 5 5 1 6 0 1 2 0 3 3 2
5 1 5 1 2 0 3 3 2 3 2 4 1 6 5 6 3 1 6 4 1 0 6 1 2 1
5 2 2 4 5 2 3 2 4 1 6 5 6 3 5 5 1 6 0 1 1 1 6 2 1 6 3 6
6 1 5 1 2 0 1 4 5 3 5 6 2 6 3 3 1 0 2 3 2 4 1 6 5 6 2 1 6 3 6
6 2 2 4 5 2 3 2 4 1 6 5 6 3 4 3 2 5 1 1 1 5 1 2 1 6 3 6 2 0 3 3 2
mk02 26
10 6
6 6 2 3 3 5 0 3 5 6 1 2 4 3 2 5 5 2 4 6 0 1 4 6 2 3 3 3 1 6 5 5 1 1 6 2 5 3 4 6 3 2 2 1 1 4 4
6 5 5 1 4 6 0 3 1 4 3 2 2 5 3 4 6 1 4 2 2 1 4 2 3 3 2 2 1 1 4 4 6 2 3 3 5 0 3 5 6 1 2 4 3
6 6 0 1 4 6 2 3 3 3 1 6 5 5 6 4 3 3 6 1 4 5 6 2 6 0 2 3 2 2 1 1 4 4 5 2 5 0 4 1 3 5 3 4 2 6 3 1 0 5 1 4 4 5 2 3 5 3 5 5 3 0 4 3 6 2 6 4 3
6 5 2 5 0 4 1 3 5 3 4 2 5 5 1 4 6 0 3 1 4 3 2 1 1 6 6 0 1 4 6 2 3 3 3 1 6 5 5 5 0 4 3 5 1 3 5 3 4 4 6 3 1 0 5 1 4 4 5 2 3 5 3
6 6 4 3 3 6 1 4 5 6 2 6 0 2 5 0 4 3 5 1 3 5 3 4 4 1 3 3 5 5 3 0 4 3 6 2 6 4 3 5 5 1 4 6 0 3 1 4 3 2 2 1 4 2 3
6 5 5 3 0 4 3 6 2 6 4 3 2 5 5 2 4 5 2 5 0 4 1 3 5 3 4 2 6 4 3 3 6 1 4 5 6 2 6 0 2 1 1 6 5 5 1 4 6 0 3 1 4 3 2
5 6 3 1 0 5 1 4 4 5 2 3 5 3 1 4 2 6 4 3 3 6 1 4 5 6 2 6 0 2 6 2 3 3 5 0 3 5 6 1 2 4 3 5 5 3 0 4 3 6 2 6 4 3
6 2 1 4 2 3 5 2 5 0 4 1 3 5 3 4 2 6 4 3 3 6 1 4 5 6 2 6 0 2 5 5 3 0 4 3 6 2 6 4 3 5 0 4 3 5 1 3 5 3 4 4 5 5 1 4 6 0 3 1 4 3 2
5 1 1 6 2 5 5 2 4 5 5 1 4 6 0 3 1 4 3 2 5 0 4 3 5 1 3 5 3 4 4 2 1 4 2 3
6 1 3 3 6 4 3 3 6 1 4 5 6 2 6 0 2 5 5 3 0 4 3 6 2 6 4 3 6 3 1 0 5 1 4 4 5 2 3 5 3 2 5 3 4 6 5 5 1 4 6 0 3 1 4 3 2`;

/** Flexible job shops with published best-known makespans. */
export function flexibleShops(): PublishedShop[] {
  return [...readShops(WITH_VEHICLES, 2, 1), ...readShops(`${WITHOUT_VEHICLES}${BRANDIMARTE}${MULTI_PURPOSE}`, 0, 0)];
}

function readShops(text: string, vehicles: number, firstMachine: number): PublishedShop[] {
  const lines = text.trim().split('\n').map((line) => line.split(' '));
  const shops: PublishedShop[] = [];
  for (let i = 0; i < lines.length; ) {
    const [[name, bestKnown], [jobs, machines]] = [lines[i]!, lines[i + 1]!];
    const rows = lines.slice(i + 2, i + 2 + Number(jobs));
    const locations = ['LU', ...Array.from({ length: Number(machines) }, (_, m) => `M${m + firstMachine}`)];
    shops.push({ name: name!, bestKnown: Number(bestKnown), shop: { vehicles, locations, travelTime: vehicles > 0 ? TRAVEL : [], startAt: 'LU', jobs: readFlexibleJobs(rows.map((row) => row.join(' ')).join('\n')) } });
    i += 2 + Number(jobs);
  }
  return shops;
}
