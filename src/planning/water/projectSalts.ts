/** Water and one component on their ways through basins and return tanks, as means of a day. */
export interface SaltCircuit {
  /** Standing in all basins together, and mean concentration. */
  readonly basinsL: number;
  readonly basinsMmolPerL: number;
  /** Absorbed by the crops, L a day, and what they take up with each litre. */
  readonly absorbedLPerDay: number;
  readonly uptakeMmolPerL: number;
  /** Drained to discharge, L a day. */
  readonly dischargedLPerDay: number;
  /** Water and stocks that make up for what is absorbed and discharged. */
  readonly makeUpMmolPerL: number;
  /** Spent solution as a multiple of the mean of the basins. */
  readonly spentFactor: number;
  readonly tanks: readonly { readonly volumeL: number; readonly capacityL: number; readonly mmolPerL: number; readonly returnedLPerDay: number; readonly drawnLPerDay: number }[];
}

/** Share of a pool that may turn over in one step. */
const STEP_SHARE = 0.05;
const MOST_STEPS = 400;

/**
 * Concentration of a component in each tank at the end of each day, mmol/L: mass balance of basins and tanks, well mixed,
 * with the flows of today going on. A tank that is full overflows to discharge; one that is empty gives nothing. What the
 * basins lose is made up, so that they stay full. First index: day from 0 (now); second: tank.
 */
export function projectSalts(circuit: SaltCircuit, days: number): number[][] {
  const tanks = circuit.tanks.map((tank) => ({ ...tank, mmol: tank.volumeL * tank.mmolPerL }));
  let basinsMmol = circuit.basinsL * circuit.basinsMmolPerL;
  const steps = stepsPerDay(circuit);
  const shown = [tanks.map(concentrationOf)];
  for (let day = 1; day <= days; day++) {
    for (let step = 0; step < steps; step++) basinsMmol = advance(circuit, tanks, basinsMmol, 1 / steps);
    shown.push(tanks.map(concentrationOf));
  }
  return shown;
}

type Tank = { -readonly [K in keyof SaltCircuit['tanks'][number]]: number } & { mmol: number };

function advance(circuit: SaltCircuit, tanks: Tank[], basinsMmol: number, days: number): number {
  const { basinsL, absorbedLPerDay, dischargedLPerDay, makeUpMmolPerL, uptakeMmolPerL, spentFactor } = circuit;
  const basins = basinsL > 0 ? basinsMmol / basinsL : 0;
  let makeUpL = (absorbedLPerDay + dischargedLPerDay) * days;
  let mmol = basinsMmol - Math.min(basinsMmol, (absorbedLPerDay * uptakeMmolPerL + dischargedLPerDay * spentFactor * basins) * days);
  for (const tank of tanks) {
    const inL = tank.returnedLPerDay * days;
    const outL = Math.min(tank.volumeL, tank.drawnLPerDay * days);
    const came = Math.min(mmol, inL * spentFactor * basins);
    const went = outL * concentrationOf(tank);
    mmol += went - came;
    makeUpL += inL - outL;
    tank.mmol += came - went;
    tank.volumeL += inL - outL;
    if (tank.volumeL > tank.capacityL) { tank.mmol *= tank.capacityL / tank.volumeL; tank.volumeL = tank.capacityL; }
  }
  return mmol + Math.max(0, makeUpL) * makeUpMmolPerL;
}

const concentrationOf = ({ volumeL, mmolPerL, mmol }: Tank): number => (volumeL > 1e-6 ? mmol / volumeL : mmolPerL);

function stepsPerDay({ tanks, basinsL, absorbedLPerDay, dischargedLPerDay }: SaltCircuit): number {
  const drawn = tanks.reduce((sum, tank) => sum + Math.max(tank.drawnLPerDay, tank.returnedLPerDay), 0);
  const shares = [...tanks.map((tank) => Math.max(tank.drawnLPerDay, tank.returnedLPerDay) / Math.max(1, tank.volumeL)), (absorbedLPerDay + dischargedLPerDay + drawn) / Math.max(1, basinsL)];
  return Math.min(MOST_STEPS, Math.max(1, Math.ceil(Math.max(...shares) / STEP_SHARE)));
}
