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
}

const HABITS: Record<PlantType, Habit> = {
  butterhead: { leaves: 18, lengthMm: 78, widthMm: 62, inner: 1.35, outer: 0.6, bend: 0.45, stemMm: 4 },
  red: { leaves: 20, lengthMm: 80, widthMm: 52, inner: 1.3, outer: 0.6, bend: 0.5, stemMm: 4 },
  upright: { leaves: 12, lengthMm: 80, widthMm: 30, inner: 1.5, outer: 1.1, bend: 0.5, stemMm: 4 },
  herb: { leaves: 16, lengthMm: 52, widthMm: 32, inner: 0.7, outer: 0.3, bend: 0.8, stemMm: 115 },
};

/** Size of a plant against one that just touches its neighbours. */
const SIZE: Record<Stage, number> = { young: 0.55, touching: 1, closed: 1.75 };
const LEAVES: Record<Stage, number> = { young: 0.6, touching: 1, closed: 1.3 };

/** How large a plant is: its size, and its leaves, against a plant that just touches its neighbours. */
export interface Growth { readonly size: number; readonly leaves: number }

export const growthAt = (stage: Stage): Growth => ({ size: SIZE[stage], leaves: LEAVES[stage] });
/** 137.5 degrees: successive leaves of a rosette. */
const GOLDEN_ANGLE = Math.PI * (3 - Math.sqrt(5));
const ALONG = 9;
const ACROSS = 4;

/** Adds a plant of bent, folded, wavy leaves on a golden-angle spiral. `place` brings plant coordinates into the basin. */
export function growPlant(mesh: Mesh, owner: number, type: PlantType, growth: Growth, random: RandomStream, place: (corner: Corner) => Corner): void {
  const habit = HABITS[type];
  const size = growth.size * Math.exp(0.12 * random.normal());
  const turn = random.uniform() * 2 * Math.PI;
  const leaves = Math.round(habit.leaves * growth.leaves);
  if (type === 'herb') growStem(mesh, owner, habit.stemMm * size, place);
  for (let leaf = 0; leaf < leaves; leaf += 1) {
    const age = (leaf + 0.5) / leaves;
    const foot = type === 'herb' ? habit.stemMm * size * (1 - 0.75 * age) : habit.stemMm * size;
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
