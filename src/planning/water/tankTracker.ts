import type { AnalysedWater } from '../../greenhouse/compositionOfAnalysis.ts';
import { addWater, NO_WATER, type WaterAmount, type WaterFlow } from '../../greenhouse/waterBook.ts';
import { entriesOf, scaleComposition, type Component, type Composition } from '../../science/chemistry/composition.ts';
import { freeIonMsPerCm25 } from './freeIonConductivity.ts';
import { likelyTankCause, type KnownWater, type MovedBatch } from './likelyTankCause.ts';
import type { TankFlag, TankState } from './tankState.ts';
import { tankWords } from './tankWords.ts';
import { pairingFactor } from './waterFigures.ts';

/** How far what was booked may be wrong (common practice, no source): litres of a batch, its strength, what changes by itself in a day. */
const MOVE_SD_SHARE = 0.02;
const BATCH_SD_SHARE = 0.1;
const DRIFT_PER_DAY = 0.005;
/** Laboratories agree within about 5 %; of a trace less well, and nobody weighs a trace against a main ion. */
const ANALYSIS_SD_SHARE = 0.05;
/** Concentrations below this are not judged, mmol/L. */
const JUDGED_MMOL_PER_L = 0.2;
/** Iron that is missing beyond this share was lost on the way. */
const LOST_SHARE = 0.05;
/** Innovations beyond this many standard deviations are flagged. */
const GATE = 3.5;
const DAY_MS = 86_400_000;

const MAIN: readonly Component[] = ['K', 'Ca', 'Mg', 'Na', 'NO3', 'Cl', 'SO4', 'P'];

/**
 * Volume and amounts of one return tank through time: what was drained into it and drawn from it as booked, corrected by
 * levels, conductivities and analyses by their uncertainty (one-dimensional Kalman 1960 updates; all ions share one
 * relative uncertainty, so that a correction keeps the charge balance). Until the first movement is on record nothing is
 * known about what happens between two observations, so each one is taken as it is.
 */
export class TankTracker {
  private readonly place: string;
  private held: WaterAmount = NO_WATER;
  private volumeVar: number | undefined;
  private ms: number | undefined;
  private firstMs: number | undefined;
  private strengthVar = 0;
  private analysis: AnalysedWater | undefined;
  private pairing = 1;
  private levelMs: number | undefined;
  private inL = 0;
  private outL = 0;
  private readonly flags: TankFlag[] = [];
  private corrections: WaterFlow[] = [];
  private booked: WaterAmount = NO_WATER;
  private batches: MovedBatch[] = [];
  /** What was doubted once: a level by what it missed, L; a conductivity; an analysis. */
  private doubtedMissL: number | undefined;
  private doubtedMsPerCm: number | undefined;
  private doubtedAnalysis: AnalysedWater | undefined;

  constructor(source: string, startL: number, earlier: WaterAmount, private isOnRecord: boolean, private readonly others: readonly KnownWater[]) {
    this.place = `tank:${source}`;
    this.booked = earlier;
    this.held = { litres: startL, mmol: {} };
  }

  /** A batch that came (from a basin) or went (into one). */
  move(flow: WaterFlow): void {
    const ms = Date.parse(flow.at);
    const sign = flow.to === this.place ? 1 : -1;
    this.advance(ms);
    this.isOnRecord = true;
    if (sign > 0) this.inL += flow.litres; else { this.outL += flow.litres; this.loseIron(flow); }
    const share = sign > 0 ? flow.litres / Math.max(flow.litres, this.held.litres + flow.litres) : 0;
    this.strengthVar = (1 - share) ** 2 * this.strengthVar + (share * BATCH_SD_SHARE) ** 2;
    if (this.volumeVar !== undefined) this.volumeVar += (MOVE_SD_SHARE * flow.litres) ** 2;
    this.held = addWater(this.held, flow, sign);
    this.booked = addWater(this.booked, flow, sign);
    this.batches = [...this.batches.slice(-19), { basin: (sign > 0 ? flow.from : flow.to).replace('basin:', ''), came: sign > 0, litres: flow.litres, mmol: flow.mmol }];
  }

  /** What is drawn through a lamp arrives with less chelated iron than left the tank: the rest is lost in treatment. */
  private loseIron({ at, litres, mmol }: WaterFlow): void {
    const left = (this.held.mmol.Fe ?? 0) * Math.min(1, litres / Math.max(this.held.litres, 1e-6));
    const Fe = left - (mmol.Fe ?? 0);
    if (this.analysis === undefined || Fe <= LOST_SHARE * left) return;
    this.held = addWater(this.held, { litres: 0, mmol: { Fe } }, -1);
    this.booked = addWater(this.booked, { litres: 0, mmol: { Fe } }, -1);
    this.corrections = [...this.corrections, { at, from: this.place, to: 'treatment', litres: 0, mmol: { Fe } }];
  }

  observeVolume(ms: number, value: number, sd: number): void {
    this.advance(ms);
    if (!this.isOnRecord || this.volumeVar === undefined) { this.setVolume(ms, value, 1); this.volumeVar = sd * sd; return; }
    const miss = value - this.held.litres;
    const total = this.volumeVar + sd * sd;
    if (Math.abs(miss) <= GATE * Math.sqrt(total)) {
      this.doubtedMissL = undefined;
      const gain = this.volumeVar / total;
      this.setVolume(ms, value, gain);
      this.volumeVar *= 1 - gain;
      return;
    }
    const again = this.doubtedMissL !== undefined && Math.abs(miss - this.doubtedMissL) < GATE * Math.SQRT2 * sd;
    this.flags.push(tankWords.volumeFlag(ms, this.held.litres, value, again, this.batches));
    this.doubtedMissL = again ? undefined : miss;
    if (!again) return;
    this.setVolume(ms, value, 1);
    this.volumeVar = sd * sd;
    this.batches = [];
  }

  /** mS/cm at 25 C. */
  observeConductivity(ms: number, value: number, sd: number): void {
    this.advance(ms);
    const expected = this.conductivity();
    if (expected === undefined || expected < 1e-3 || !this.isOnRecord) return;
    const noise = (sd / expected) ** 2;
    const miss = value / expected - 1;
    const isFar = Math.abs(miss) > GATE * Math.sqrt(this.strengthVar + noise);
    const again = isFar && this.doubtedMsPerCm !== undefined && Math.abs(value / this.doubtedMsPerCm - 1) < GATE * Math.sqrt(2 * noise);
    if (isFar) this.flags.push(tankWords.conductivityFlag(ms, expected, value, again));
    this.doubtedMsPerCm = isFar && !again ? value : undefined;
    if (isFar && !again) return;
    const gain = again ? 1 : this.strengthVar / (this.strengthVar + noise);
    this.correct(ms, scaleComposition(this.held.mmol, gain * miss));
    this.strengthVar = again ? noise : (1 - gain) * this.strengthVar;
  }

  observeAnalysis(ms: number, water: AnalysedWater): void {
    this.advance(ms);
    const first = this.analysis === undefined || !this.isOnRecord;
    const wrong = first ? undefined : this.judge(ms, water);
    if (wrong === 'another water') return;
    const gain = first || wrong !== undefined ? 1 : this.strengthVar / (this.strengthVar + ANALYSIS_SD_SHARE ** 2);
    this.take(ms, water, gain);
    this.strengthVar = gain === 1 ? ANALYSIS_SD_SHARE ** 2 : (1 - gain) * this.strengthVar;
    this.analysis = water;
    this.pairing = pairingFactor(this.mmolPerL());
    this.inL = 0;
    this.outL = 0;
    this.batches = [];
  }

  finish(atMs: number): TankState {
    this.advance(atMs);
    const known = this.analysis !== undefined && this.held.litres > 1e-6;
    return {
      volumeL: this.held.litres, ...(this.volumeVar === undefined ? {} : { volumeSdL: Math.sqrt(this.volumeVar) }),
      ...(known ? { mmolPerL: this.mmolPerL(), strengthSdShare: Math.sqrt(this.strengthVar) } : {}),
      ...(this.analysis === undefined ? {} : { since: this.analysis.at }),
      inL: this.inL, outL: this.outL, basis: tankWords.basis(this.analysis, this.inL, this.outL, this.levelMs), flags: this.flags,
      corrections: this.corrections.length > 0 ? this.corrections : [this.found(this.firstMs ?? atMs)],
    };
  }

  private advance(ms: number): void {
    if (this.ms !== undefined && ms > this.ms) this.strengthVar += (DRIFT_PER_DAY ** 2 * (ms - this.ms)) / DAY_MS;
    this.firstMs ??= ms;
    this.ms = Math.max(ms, this.ms ?? ms);
  }

  /** Fits or not: an analysis that cannot come from what was booked is told with its likeliest cause. */
  private judge(ms: number, water: AnalysedWater): 'another water' | 'other contents' | undefined {
    const expected = this.mmolPerL();
    const sd = Math.sqrt(this.strengthVar + ANALYSIS_SD_SHARE ** 2);
    const far = MAIN.filter((name) => {
      const [is, was] = [water.mmolPerL[name], expected[name] ?? 0];
      return is !== undefined && Math.abs(is - was) > GATE * sd * Math.max(is, was, JUDGED_MMOL_PER_L);
    });
    if (far.length === 0) { this.doubtedAnalysis = undefined; return undefined; }
    const cause = likelyTankCause({ measured: water.mmolPerL, held: this.held, batches: this.batches, others: this.others });
    const isOther = cause.kind === 'another water' && this.doubtedAnalysis === undefined;
    this.flags.push(tankWords.analysisFlag(ms, water, far, expected, cause.words, isOther));
    this.doubtedAnalysis = isOther ? water : undefined;
    return isOther ? 'another water' : 'other contents';
  }

  private take(ms: number, { mmolPerL }: AnalysedWater, gain: number): void {
    const changes = entriesOf(mmolPerL).map(([name, is]) => [name, gain * (is * this.held.litres - (this.held.mmol[name] ?? 0))] as const);
    this.correct(ms, Object.fromEntries(changes));
  }

  private correct(ms: number, mmol: Composition): void { this.book(ms, { litres: 0, mmol }); }

  /** Corrects the volume by a share of what it misses; the concentrations stay. */
  private setVolume(ms: number, value: number, gain: number): void {
    this.levelMs = ms;
    const litres = gain * (value - this.held.litres);
    this.book(ms, { litres, mmol: this.held.litres > 1e-6 ? scaleComposition(this.held.mmol, litres / this.held.litres) : {} });
  }

  /** Where nothing was on record before, what is there is found, not unexplained. */
  private book(ms: number, change: WaterAmount): void {
    this.held = addWater(this.held, change);
    if (this.analysis === undefined || !this.isOnRecord) {
      this.corrections = [this.found(ms)];
      return;
    }
    this.corrections = [...this.corrections, { at: new Date(ms).toISOString(), from: 'unexplained', to: this.place, ...change }];
  }

  /** What is there beyond what is on record. */
  private found(ms: number): WaterFlow { return { at: new Date(ms).toISOString(), from: 'found', to: this.place, ...addWater(this.held, this.booked, -1) }; }

  private mmolPerL(): Composition { return scaleComposition(this.held.mmol, 1 / Math.max(this.held.litres, 1e-6)); }

  private conductivity(): number | undefined { return this.analysis !== undefined && this.held.litres > 1e-6 ? this.pairing * freeIonMsPerCm25(this.mmolPerL()) : undefined; }
}
