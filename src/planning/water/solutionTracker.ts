import { ec25UsPerCm } from '../../science/chemistry/conductivity.ts';
import { entriesOf, scaleComposition, type Component, type Composition } from '../../science/chemistry/composition.ts';
import type { AnalysedWater } from './analysisComposition.ts';
import type { SolutionEstimate, SolutionFlag } from './solutionEstimate.ts';
import { words } from './solutionWords.ts';

/** How far the balance may be wrong (common practice, no source): dosing, transpiration of the model, uptake table. */
const FILLING_SD_SHARE = 0.02;
const DOSING_SD_SHARE = 0.05;
const TRANSPIRATION_SD_SHARE = 0.25;
const UPTAKE_SD_SHARE = 0.3;
/** An analysis against the balance; laboratories agree within about 5 %. */
const ANALYSIS_SD_SHARE = 0.05;
/** Innovations beyond this many standard deviations are flagged. */
const GATE = 3.5;

type Amounts = Partial<Record<Component, number>>;
interface Doubt { readonly value: number; readonly sd: number }

/**
 * Volume and amounts of one basin through time. What a level says about transpiration moves the uptake with it, so
 * correcting the volume keeps the mass balance; whatever else has to be corrected is booked as unexplained.
 */
export class SolutionTracker {
  private ms: number | undefined;
  private volumeL = 0;
  private amounts: Amounts = {};
  private startMs = 0;
  private startL = 0;
  private startMmol: Composition = {};
  private transpiredL = 0;
  private uptakeMmol: Amounts = {};
  private unexplainedL = 0;
  private unexplainedMmol: Amounts = {};
  private volumeBaseVar = 0;
  private sinceLevelL = 0;
  private strengthBaseVar = 0;
  private sinceStrengthL = 0;
  private readonly analysed = new Set<Component>();
  private readonly exhausted = new Set<Component>();
  private readonly flags: SolutionFlag[] = [];
  private doubtedVolume: Doubt | undefined;
  private doubtedStrength: Doubt | undefined;
  private waiting: { volume?: { ms: number; value: number; sd: number }; water?: AnalysedWater } = {};
  private pH: number | undefined;
  private lastLevel: string | undefined;
  private lastStrength: string | undefined;
  private started = 'filled';

  constructor(private readonly uptakeMmolPerL: Composition, private readonly litresBetween: (fromMs: number, toMs: number) => number) {}

  renew(ms: number, volumeL: number, mmolPerL: Composition, started = 'filled'): void {
    this.ms = ms;
    this.startMs = ms;
    this.startL = this.volumeL = volumeL;
    this.startMmol = scaleComposition(mmolPerL, volumeL);
    this.amounts = { ...this.startMmol };
    this.volumeBaseVar = (FILLING_SD_SHARE * volumeL) ** 2;
    this.strengthBaseVar = DOSING_SD_SHARE ** 2;
    this.started = started;
  }

  /** Level or volume, L. */
  observeVolume(ms: number, value: number, sd: number): void {
    if (this.ms === undefined) { this.waiting = { ...this.waiting, volume: { ms, value, sd } }; this.startFromWaiting(); return; }
    this.advance(ms);
    const prior = this.volumeVar();
    const miss = value - this.volumeL;
    if (Math.abs(miss) > GATE * Math.sqrt(prior + sd * sd)) { this.doubtVolume(ms, value, sd); return; }
    this.doubtedVolume = undefined;
    this.moveVolume((prior / (prior + sd * sd)) * miss);
    this.volumeBaseVar = (prior * sd * sd) / (prior + sd * sd);
    this.sinceLevelL = 0;
    this.lastLevel = words.level(ms, value, miss);
  }

  /** mS/cm at 25 C. */
  observeConductivity(ms: number, value: number, sd: number): void {
    if (this.ms === undefined) return;
    this.advance(ms);
    const expected = this.conductivity();
    if (expected === undefined) return;
    const prior = this.strengthVar() * expected * expected;
    if (Math.abs(value - expected) > GATE * Math.sqrt(prior + sd * sd)) { this.doubtStrength(ms, value, sd, expected); return; }
    this.doubtedStrength = undefined;
    const gain = prior / (prior + sd * sd);
    this.scaleTo(expected + gain * (value - expected));
    this.strengthBaseVar = ((1 - gain) * prior) / (expected * expected);
    this.sinceStrengthL = 0;
    this.lastStrength = words.conductivity(ms, value, expected);
  }

  observePH(_ms: number, value: number): void { this.pH = value; }

  observeAnalysis(ms: number, water: AnalysedWater): void {
    if (water.pH !== undefined) this.pH = water.pH;
    if (this.ms === undefined) { this.waiting = { ...this.waiting, water }; this.startFromWaiting(); return; }
    this.advance(ms);
    const expected = this.conductivity();
    for (const [name, mmolPerL] of entriesOf(water.mmolPerL)) {
      this.book(name, mmolPerL * this.volumeL - (this.amounts[name] ?? 0));
      this.analysed.add(name);
      this.exhausted.delete(name);
    }
    const found = this.conductivity();
    if (expected !== undefined && found !== undefined && Math.abs(found / expected - 1) > GATE * Math.sqrt(this.strengthVar() + ANALYSIS_SD_SHARE ** 2)) this.flags.push(words.analysisFlag(ms, water.analysis, expected, found));
    this.strengthBaseVar = ANALYSIS_SD_SHARE ** 2;
    this.sinceStrengthL = 0;
    this.lastStrength = words.analysis(ms, water.analysis);
  }

  finish(atMs: number): SolutionEstimate {
    if (this.ms === undefined) return { known: false, reason: words.unknown(this.waiting.volume !== undefined, this.waiting.water !== undefined), flags: this.flags };
    this.advance(atMs);
    const ecMsPerCm25 = this.conductivity();
    if (ecMsPerCm25 === undefined) return { known: false, reason: 'The balance says that the basin is empty.', flags: this.flags };
    return { known: true, solution: {
      volumeL: this.volumeL, volumeSdL: Math.sqrt(this.volumeVar()), mmolPerL: this.concentrations(), strengthSdShare: Math.sqrt(this.strengthVar()),
      ecMsPerCm25, ...(this.pH === undefined ? {} : { pH: this.pH }),
      basis: words.basis(this.started, this.startMs, this.startL, this.transpiredL, [this.lastLevel, this.lastStrength]),
      flags: this.flags, exhausted: [...this.exhausted],
      balance: {
        from: new Date(this.startMs).toISOString(), startL: this.startL, startMmol: this.startMmol, transpiredL: this.transpiredL,
        uptakeMmol: this.uptakeMmol, unexplainedL: this.unexplainedL, unexplainedMmol: this.unexplainedMmol,
      },
    } };
  }

  /** Without a recorded filling a level and an analysis together are a start. */
  private startFromWaiting(): void {
    const { volume, water } = this.waiting;
    if (volume === undefined || water === undefined) return;
    const ms = Math.max(volume.ms, Date.parse(water.at));
    this.renew(ms, volume.value, water.mmolPerL, 'measured');
    this.volumeBaseVar = volume.sd ** 2;
    this.strengthBaseVar = ANALYSIS_SD_SHARE ** 2;
    for (const [name] of entriesOf(water.mmolPerL)) this.analysed.add(name);
  }

  private advance(toMs: number): void {
    if (this.ms === undefined || toMs <= this.ms) return;
    const litres = Math.max(0, Math.min(this.volumeL, this.litresBetween(this.ms, toMs)));
    this.ms = toMs;
    this.absorb(litres);
    this.sinceLevelL += litres;
    this.sinceStrengthL += litres;
  }

  /** Water leaves and takes its uptake along; what is no longer there cannot be taken. A negative amount gives back. */
  private absorb(litres: number): void {
    this.volumeL -= litres;
    this.transpiredL += litres;
    for (const [name, mmolPerL] of entriesOf(this.uptakeMmolPerL)) {
      const held = this.amounts[name] ?? 0;
      const taken = Math.min(mmolPerL * litres, Math.max(0, held));
      if (litres > 0 && taken < mmolPerL * litres) this.exhausted.add(name);
      this.amounts[name] = held - taken;
      this.uptakeMmol[name] = (this.uptakeMmol[name] ?? 0) + taken;
    }
  }

  /** A level below the balance means that more was transpired; one above it, less, and at most all of it since the last level. */
  private moveVolume(changeL: number): void {
    const absorbedL = Math.max(-this.sinceLevelL, Math.min(-changeL, this.volumeL));
    this.absorb(absorbedL);
    const restL = changeL + absorbedL;
    this.volumeL += restL;
    this.unexplainedL += restL;
  }

  private scaleTo(targetMsPerCm: number): void {
    const free = entriesOf(this.amounts).map(([name]) => name).filter((name) => !this.analysed.has(name));
    const charged = free.length > 2 ? free : entriesOf(this.amounts).map(([name]) => name);
    const expected = this.conductivity()!;
    let factor = targetMsPerCm / expected;
    const at = (scale: number): number => ec25UsPerCm(scaled(this.concentrations(), charged, scale)) / 1000;
    for (let round = 0; round < 6; round++) {
      const reached = at(factor);
      const slope = (reached - expected) / (factor - 1);
      if (!(Math.abs(slope) > 1e-9) || Math.abs(reached - targetMsPerCm) < 1e-9) break;
      factor = Math.min(5, Math.max(0.2, factor + (targetMsPerCm - reached) / slope));
    }
    for (const name of charged) this.book(name, (factor - 1) * this.amounts[name]!);
  }

  private book(name: Component, mmol: number): void {
    this.amounts[name] = (this.amounts[name] ?? 0) + mmol;
    this.unexplainedMmol[name] = (this.unexplainedMmol[name] ?? 0) + mmol;
  }

  private doubtVolume(ms: number, value: number, sd: number): void {
    const again = this.doubtedVolume !== undefined && Math.abs(value - this.doubtedVolume.value) < GATE * Math.hypot(sd, this.doubtedVolume.sd) + 0.5 * this.sinceLevelL;
    this.flags.push(words.volumeFlag(ms, this.volumeL, value, again));
    this.doubtedVolume = { value, sd };
    if (!again) return;
    this.unexplainedL += value - this.volumeL;
    this.volumeL = value;
    this.volumeBaseVar = sd * sd;
    this.sinceLevelL = 0;
    this.lastLevel = words.level(ms, value, 0);
  }

  private doubtStrength(ms: number, value: number, sd: number, expected: number): void {
    const again = this.doubtedStrength !== undefined && Math.abs(value - this.doubtedStrength.value) < GATE * Math.hypot(sd, this.doubtedStrength.sd) + 0.1 * value;
    this.flags.push(words.conductivityFlag(ms, expected, value, again, this.doubtedVolume !== undefined));
    this.doubtedStrength = { value, sd };
    if (!again) return;
    this.scaleTo(value);
    this.strengthBaseVar = (sd / value) ** 2;
    this.sinceStrengthL = 0;
    this.lastStrength = words.conductivity(ms, value, value);
  }

  private volumeVar(): number { return this.volumeBaseVar + (TRANSPIRATION_SD_SHARE * this.sinceLevelL) ** 2; }

  private strengthVar(): number { return this.strengthBaseVar + (UPTAKE_SD_SHARE * (this.sinceStrengthL / Math.max(this.volumeL, 1e-9))) ** 2; }

  private concentrations(): Composition { return scaleComposition(this.amounts, 1 / this.volumeL); }

  private conductivity(): number | undefined { return this.volumeL > 1e-6 ? ec25UsPerCm(this.concentrations()) / 1000 : undefined; }
}

function scaled(composition: Composition, names: readonly Component[], factor: number): Composition {
  const out: Amounts = { ...composition };
  for (const name of names) out[name] = out[name]! * factor;
  return out;
}
