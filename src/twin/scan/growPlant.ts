import type { RandomStream } from '../../science/seededRandom.ts';
import { addQuad, type Corner, type Mesh } from './mesh.ts';

export type PlantType = 'butterhead' | 'red' | 'upright' | 'herb';
export const PLANT_TYPES: readonly PlantType[] = ['butterhead', 'red', 'upright', 'herb'];
export type Stage = 'young' | 'touching' | 'closed';

interface Habit {
  readonly leaves: number;
  /** Length and width of the largest leaf when touching, mm. */
  readonly lengthMm: number;
  readonly widthMm: number;
  /** Elevation of the innermost and the outermost leaf at its foot, and by how much it bends down, radians. */
  readonly inner: number;
  readonly outer: number;
  readonly bend: number;
  readonly stemMm: number;
  /** Share of the stem's height at which the outermost leaf stands. */
  readonly lowest: number;
}

/**
 * Two builds, so that what is found on one is not a quirk of it. Leafy plants have many small leaves, herbs down to the raft. Airy ones have
 * fewer and larger leaves, herbs only in a flat top: own area, mean and greatest height and leaf area over own area of each type lie within
 * 10 % of the plants of a scene that another generator made (touching; leaf area 2 to 3 times the area seen from above).
 */
export type Build = 'leafy' | 'airy';

const HABITS: Record<Build, Record<PlantType, Habit>> = {
  leafy: {
    butterhead: { leaves: 18, lengthMm: 78, widthMm: 62, inner: 1.35, outer: 0.6, bend: 0.45, stemMm: 4, lowest: 1 },
    red: { leaves: 20, lengthMm: 80, widthMm: 52, inner: 1.3, outer: 0.6, bend: 0.5, stemMm: 4, lowest: 1 },
    upright: { leaves: 12, lengthMm: 80, widthMm: 30, inner: 1.5, outer: 1.1, bend: 0.5, stemMm: 4, lowest: 1 },
    herb: { leaves: 16, lengthMm: 52, widthMm: 32, inner: 0.7, outer: 0.3, bend: 0.8, stemMm: 115, lowest: 0.25 },
  },
  airy: {
    butterhead: { leaves: 10, lengthMm: 91, widthMm: 54, inner: 1.3, outer: 0.93, bend: 0.72, stemMm: 3, lowest: 1 },
    red: { leaves: 10, lengthMm: 92, widthMm: 54, inner: 1.3, outer: 0.95, bend: 0.72, stemMm: 3, lowest: 1 },
    upright: { leaves: 15, lengthMm: 87, widthMm: 25, inner: 1.5, outer: 1.12, bend: 0.4, stemMm: 4, lowest: 1 },
    herb: { leaves: 13, lengthMm: 50, widthMm: 34, inner: 0.55, outer: 0.3, bend: 0.42, stemMm: 128, lowest: 0.7 },
  },
};

/** Size of a plant against one that just touches its neighbours. */
const SIZE: Record<Build, Record<Stage, number>> = { leafy: { young: 0.55, touching: 1, closed: 1.75 }, airy: { young: 0.52, touching: 1, closed: 1.6 } };
const LEAVES: Record<Stage, number> = { young: 0.6, touching: 1, closed: 1.3 };

/** How large a plant is: its size, and its leaves, against a plant that just touches its neighbours. */
export interface Growth { readonly size: number; readonly leaves: number; readonly build?: Build }

export const growthAt = (stage: Stage, build: Build = 'leafy'): Growth => ({ build, size: SIZE[build][stage], leaves: LEAVES[stage] });
/** 137.5 degrees: successive leaves of a rosette. */
const GOLDEN_ANGLE = Math.PI * (3 - Math.sqrt(5));
const ALONG = 9;
const ACROSS = 4;

/** Adds a plant of bent, folded, wavy leaves on a golden-angle spiral. `place` brings plant coordinates into the basin. */
export function growPlant(mesh: Mesh, owner: number, type: PlantType, growth: Growth, random: RandomStream, place: (corner: Corner) => Corner): void {
  const habit = HABITS[growth.build ?? 'leafy'][type];
  const size = growth.size * Math.exp(0.12 * random.normal());
  const turn = random.uniform() * 2 * Math.PI;
  const leaves = Math.round(habit.leaves * growth.leaves);
  if (type === 'herb') growStem(mesh, owner, habit.stemMm * size, place);
  for (let leaf = 0; leaf < leaves; leaf += 1) {
    const age = (leaf + 0.5) / leaves;
    const foot = habit.stemMm * size * (1 - (1 - habit.lowest) * age);
    growLeaf(mesh, owner, random, place, {
      foot, heading: turn + leaf * GOLDEN_ANGLE + 0.1 * random.normal(),
      lengthMm: habit.lengthMm * size * (0.45 + 0.55 * Math.sqrt(age)) * Math.exp(0.08 * random.normal()),
      widthMm: habit.widthMm * size * (0.45 + 0.55 * Math.sqrt(age)) * Math.exp(0.08 * random.normal()),
      elevation: habit.inner + (habit.outer - habit.inner) * age + 0.08 * random.normal(), bend: habit.bend * (0.7 + 0.6 * random.uniform()),
      fold: 0.25 + 0.15 * random.uniform(), wave: 0.05 * size * habit.widthMm * random.uniform(), phase: 6.3 * random.uniform(),
    });
  }
}

interface Leaf { readonly foot: number; readonly heading: number; readonly lengthMm: number; readonly widthMm: number; readonly elevation: number; readonly bend: number; readonly fold: number; readonly wave: number; readonly phase: number }

function growLeaf(mesh: Mesh, owner: number, random: RandomStream, place: (corner: Corner) => Corner, leaf: Leaf): void {
  const { lengthMm, widthMm, elevation, bend, fold, wave, phase } = leaf;
  const c = Math.cos(leaf.heading), s = Math.sin(leaf.heading);
  const lean = 0.1 * random.normal();
  let out = 3, up = leaf.foot;
  const rows: Corner[][] = [];
  for (let i = 0; i <= ALONG; i += 1) {
    const part = i / ALONG;
    const angle = elevation - bend * part * 1.6;
    if (i > 0) { out += (lengthMm / ALONG) * Math.cos(angle); up += (lengthMm / ALONG) * Math.sin(angle); }
    const half = 0.5 * widthMm * Math.max(0.06, Math.sqrt(Math.max(0, 1 - ((part - 0.58) / 0.58) ** 2)) * (part > 0.58 ? Math.sqrt(Math.max(0, 1 - ((part - 0.58) / 0.42) ** 2)) : 1));
    rows.push(Array.from({ length: ACROSS + 1 }, (_, j) => {
      const side = (2 * j) / ACROSS - 1;
      const across = side * half, lift = Math.abs(side) * half * fold + wave * Math.sin(9 * part + phase + 2 * side) * Math.abs(side);
      const x = out - lift * Math.sin(angle), y = across + lean * out;
      return place([c * x - s * y, s * x + c * y, Math.max(1, up + lift * Math.cos(angle))]);
    }));
  }
  for (let i = 0; i < ALONG; i += 1) for (let j = 0; j < ACROSS; j += 1) addQuad(mesh, owner, rows[i]![j]!, rows[i + 1]![j]!, rows[i + 1]![j + 1]!, rows[i]![j + 1]!);
}

function growStem(mesh: Mesh, owner: number, heightMm: number, place: (corner: Corner) => Corner): void {
  for (const [x, y] of [[2, 0], [0, 2]] as const) addQuad(mesh, owner, place([-x, -y, 0]), place([x, y, 0]), place([x, y, heightMm]), place([-x, -y, heightMm]));
}
