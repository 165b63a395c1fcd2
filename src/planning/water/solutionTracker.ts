import { entriesOf, scaleComposition, type Component, type Composition } from '../../science/chemistry/composition.ts';
import type { AnalysedWater } from '../../greenhouse/compositionOfAnalysis.ts';
import type { CountedWater } from '../../greenhouse/state.ts';
import type { SolutionEstimate, SolutionFlag } from './solutionEstimate.ts';
import { freeIonMsPerCm25 } from './freeIonConductivity.ts';
import { words, type StartKind } from './solutionWords.ts';
import { alkalinityAtPH, pairingFactor } from './waterFigures.ts';

/** How far the balance may be wrong (common practice, no source): dosing, transpiration of the model, uptake table. */
const FILLING_SD_SHARE = 0.02;
const DOSING_SD_SHARE = 0.05;
/** The plants of one basin against the transpiration model: spread between basins, its change in a day, and day to day noise. */
const FACTOR_SD = 0.35;
const FACTOR_DRIFT_PER_DAY = 0.03;
const TRANSPIRATION_SD_SHARE = 0.1;
/** The crop of one basin against its uptake table: spread, change in a day, and what the balance of a litre leaves open. */
const UPTAKE_FACTOR_SD = 0.4;
const UPTAKE_DRIFT_PER_DAY = 0.03;
const UPTAKE_SD_SHARE = 0.1;
/** An analysis against the balance; laboratories agree within about 5 %. */
const ANALYSIS_SD_SHARE = 0.05;
/** Proportions taken from a recipe, not from this water. */
const ASSUMED_SD_SHARE = 0.2;
/** Innovations beyond this many standard deviations are flagged. */
const GATE = 3.5;
/** Two doubted levels say the same when they differ by no more than their noise and what is transpired between them. */
const DOUBT_LOSS_L = 10;
/** Readings that lean the same way: the mean of this many standardised innovations, and its gate. */
const DRIFT_READINGS = 8;
const DRIFT_GATE = 4;

type Amounts = Partial<Record<Component, number>>;
interface Doubt { readonly value: number; readonly sd: number }
interface Moment extends Doubt { readonly ms: number }

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
  /** Transpiration of this basin relative to the model, learned from its levels; with the covariance of both. */
  private factor = 1;
  private factorVar = FACTOR_SD ** 2;
  private volumeVar = 0;
  private volumeFactorCov = 0;
  /** Uptake of this crop relative to its table, learned from conductivities; with the covariance of it and the strength. */
  private uptakeFactor = 1;
  private uptakeVar = UPTAKE_FACTOR_SD ** 2;
  /** Variance of the strength (all ions alike), relative. */
  private strengthVar = 0;
  private strengthUptakeCov = 0;
  private readonly uptakeMsPerCm: number;
  /** Doubt about the proportions of the ions, which no conductivity can lessen. */
  private compositionSdShare = 0;
  private readonly analysed = new Set<Component>();
  private readonly exhausted = new Set<Component>();
  private readonly flags: SolutionFlag[] = [];
  private doubtedVolume: Doubt | undefined;
  private doubtedStrength: Doubt | undefined;
  private waiting: { volume?: Moment; strength?: Moment; water?: AnalysedWater } = {};
  private leans: number[] = [];
  private pH: number | undefined;
  /** Conductivity with ion pairs over that without, at these proportions. */
  private pairing = 1;
  private lastLevel: string | undefined;
  private lastStrength: string | undefined;
  private started: StartKind = 'filled';

  constructor(
    private readonly uptakeMmolPerL: Composition,
    private readonly litresBetween: (fromMs: number, toMs: number) => number,
    private readonly likelyMmolPerL: Composition | undefined,
  ) { this.uptakeMsPerCm = entriesOf(uptakeMmolPerL).length > 0 ? freeIonMsPerCm25(uptakeMmolPerL) : 0; }

  /** A filling, or what an earlier balance of this water came to, with its uncertainty. */
  renew(ms: number, volumeL: number, mmolPerL: Composition, counted?: CountedWater): void {
    this.begin(ms, volumeL, mmolPerL, counted === undefined ? 'filled' : 'counted');
    if (counted === undefined) return;
    this.forgetVolume(counted.volumeSdL ** 2);
    this.forgetStrength(counted.strengthSdShare ** 2);
  }

  private begin(ms: number, volumeL: number, mmolPerL: Composition, started: StartKind): void {
    this.ms = ms;
    this.startMs = ms;
    this.startL = this.volumeL = volumeL;
    this.startMmol = scaleComposition(mmolPerL, volumeL);
    this.amounts = { ...this.startMmol };
    this.forgetVolume((FILLING_SD_SHARE * volumeL) ** 2);
    this.forgetStrength(DOSING_SD_SHARE ** 2);
    this.pairing = volumeL > 0 ? pairingFactor(mmolPerL) : 1;
    this.pH = undefined;
    this.started = started;
    this.compositionSdShare = 0;
  }

  /** Level or volume, L. */
  observeVolume(ms: number, value: number, sd: number): void {
    if (this.ms === undefined) { this.waiting = { ...this.waiting, volume: { ms, value, sd } }; this.startFromWaiting(); return; }
    this.advance(ms);
    const miss = value - this.volumeL;
    const total = this.volumeVar + sd * sd;
    if (Math.abs(miss) > GATE * Math.sqrt(total)) { this.doubtVolume(ms, value, sd); return; }
    this.doubtedVolume = undefined;
    const gain = this.volumeVar / total;
    const factorGain = this.volumeFactorCov / total;
    this.moveVolume(gain * miss);
    this.factor = Math.min(3, Math.max(0.2, this.factor + factorGain * miss));
    this.factorVar -= factorGain * this.volumeFactorCov;
    this.volumeVar *= 1 - gain;
    this.volumeFactorCov *= 1 - gain;
    this.lastLevel = words.level(ms, value, miss);
  }

  /** mS/cm at 25 C. */
  observeConductivity(ms: number, value: number, sd: number): void {
    if (this.ms === undefined) { this.waiting = { ...this.waiting, strength: { ms, value, sd } }; this.startFromWaiting(); return; }
    this.advance(ms);
    const expected = this.conductivity();
    if (expected === undefined || expected < 1e-3) return;
    const noise = (sd / expected) ** 2;
    const miss = value / expected - 1;
    const total = this.strengthVar + noise;
    if (Math.abs(miss) > GATE * Math.sqrt(total)) { this.doubtStrength(ms, value, sd, expected); return; }
    this.doubtedStrength = undefined;
    this.noticeDrift(ms, miss / Math.sqrt(total), value);
    const gain = this.strengthVar / total;
    const uptakeGain = this.strengthUptakeCov / total;
    this.scaleTo(expected * (1 + gain * miss));
    this.uptakeFactor = Math.min(2.5, Math.max(0, this.uptakeFactor + uptakeGain * miss));
    this.uptakeVar -= uptakeGain * this.strengthUptakeCov;
    this.strengthVar *= 1 - gain;
    this.strengthUptakeCov *= 1 - gain;
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
    if (expected !== undefined && found !== undefined && Math.abs(found / expected - 1) > GATE * Math.sqrt(this.strengthVar + ANALYSIS_SD_SHARE ** 2)) this.flags.push(words.analysisFlag(ms, water.analysis, expected, found));
    this.forgetStrength(ANALYSIS_SD_SHARE ** 2);
    this.lastStrength = words.analysis(ms, water.analysis);
  }

  finish(atMs: number): SolutionEstimate {
    if (this.ms === undefined) return { known: false, reason: words.unknown(this.waiting.volume !== undefined, this.waiting.water !== undefined), flags: this.flags };
    this.advance(atMs);
    this.bookAlkalinity();
    const ecMsPerCm25 = this.conductivity();
    if (ecMsPerCm25 === undefined) return { known: false, reason: 'The balance says that the basin is empty.', flags: this.flags };
    return { known: true, solution: {
      volumeL: this.volumeL, volumeSdL: Math.sqrt(this.volumeVar), transpirationFactor: this.factor, uptakeFactor: this.uptakeFactor, mmolPerL: this.concentrations(), strengthSdShare: Math.hypot(Math.sqrt(this.strengthVar), this.compositionSdShare),
      ecMsPerCm25, ...(this.pH === undefined ? {} : { pH: this.pH }),
      basis: words.basis(this.started, this.startMs, this.startL, this.transpiredL, [this.lastLevel, this.lastStrength]),
      flags: this.flags, exhausted: [...this.exhausted],
      balance: {
        from: new Date(this.startMs).toISOString(), startL: this.startL, startMmol: this.startMmol, transpiredL: this.transpiredL,
        uptakeMmol: this.uptakeMmol, unexplainedL: this.unexplainedL, unexplainedMmol: this.unexplainedMmol,
      },
    } };
  }

  /** Readings that lean one way day after day, each too little to be doubted: a drift. Said once. */
  private noticeDrift(ms: number, lean: number, value: number): void {
    this.leans = [...this.leans.slice(1 - DRIFT_READINGS), lean];
    const sum = this.leans.reduce((total, each) => total + each, 0);
    if (this.leans.length < DRIFT_READINGS || Math.abs(sum) / Math.sqrt(DRIFT_READINGS) < DRIFT_GATE) return;
    this.flags.push(words.driftFlag(ms, value, sum > 0, DRIFT_READINGS));
    this.leans = [];
  }

  /** The measured pH says what alkalinity there is now; roots change it in ways that the balance does not know. */
  private bookAlkalinity(): void {
    if (this.pH === undefined || !(this.volumeL > 1e-6)) return;
    const meqPerL = alkalinityAtPH(this.concentrations(), this.pH);
    if (meqPerL !== undefined) this.book('HCO3', meqPerL * this.volumeL - (this.amounts.HCO3 ?? 0));
  }

  /** Without a recorded filling a level and an analysis together are a start; else a level, a conductivity and the likely proportions. */
  private startFromWaiting(): void {
    const { volume, water, strength } = this.waiting;
    if (volume === undefined) return;
    if (water === undefined) { if (strength !== undefined) this.startFromLikely(volume, strength); return; }
    const ms = Math.max(volume.ms, Date.parse(water.at));
    this.begin(ms, volume.value, water.mmolPerL, 'measured');
    this.forgetVolume(volume.sd ** 2);
    this.forgetStrength(ANALYSIS_SD_SHARE ** 2);
    for (const [name] of entriesOf(water.mmolPerL)) this.analysed.add(name);
  }

  private startFromLikely(volume: Moment, strength: Moment): void {
    if (this.likelyMmolPerL === undefined || !(volume.value > 0) || !(strength.value > 0)) return;
    this.begin(Math.max(volume.ms, strength.ms), volume.value, this.likelyMmolPerL, 'assumed');
    this.scaleTo(strength.value);
    this.startMmol = { ...this.amounts };
    this.unexplainedMmol = {};
    this.forgetVolume(volume.sd ** 2);
    this.forgetStrength((strength.sd / strength.value) ** 2);
    this.compositionSdShare = ASSUMED_SD_SHARE;
  }

  private advance(toMs: number): void {
    if (this.ms === undefined || toMs <= this.ms) return;
    const modelL = Math.max(0, this.litresBetween(this.ms, toMs));
    const litres = Math.min(this.volumeL, this.factor * modelL);
    const days = (toMs - this.ms) / 86_400_000;
    this.ms = toMs;
    this.absorb(litres);
    this.volumeVar += modelL * (modelL * this.factorVar - 2 * this.volumeFactorCov) + (TRANSPIRATION_SD_SHARE * litres) ** 2;
    this.volumeFactorCov -= modelL * this.factorVar;
    this.factorVar += FACTOR_DRIFT_PER_DAY ** 2 * days;
    this.advanceStrength(litres, days);
  }

  /** A litre transpired takes the uptake's conductivity along: that is how strength and uptake factor hang together. */
  private advanceStrength(litres: number, days: number): void {
    const conductivity = this.conductivity();
    if (conductivity === undefined || conductivity <= 0) return;
    const perFactor = (this.uptakeMsPerCm * litres) / (conductivity * this.volumeL);
    this.strengthVar += perFactor * (perFactor * this.uptakeVar - 2 * this.strengthUptakeCov) + (UPTAKE_SD_SHARE * (litres / this.volumeL)) ** 2;
    this.strengthUptakeCov -= perFactor * this.uptakeVar;
    this.uptakeVar += UPTAKE_DRIFT_PER_DAY ** 2 * days;
  }

  /** Water leaves and takes its uptake along; what is no longer there cannot be taken. A negative amount gives back. */
  private absorb(litres: number): void {
    this.volumeL -= litres;
    this.transpiredL += litres;
    for (const [name, mmolPerL] of entriesOf(this.uptakeMmolPerL)) {
      const held = this.amounts[name] ?? 0;
      const wanted = this.uptakeFactor * mmolPerL * litres;
      const taken = Math.min(wanted, Math.max(0, held));
      if (litres > 0 && taken < wanted) this.exhausted.add(name);
      this.amounts[name] = held - taken;
      this.uptakeMmol[name] = (this.uptakeMmol[name] ?? 0) + taken;
    }
  }

  /** A level below the balance means that more was transpired; one above it, less, and at most all of it. */
  private moveVolume(changeL: number): void {
    const absorbedL = Math.max(-this.transpiredL, Math.min(-changeL, this.volumeL));
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
    const at = (scale: number): number => this.pairing * freeIonMsPerCm25(scaled(this.concentrations(), charged, scale));
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
    const again = this.doubtedVolume !== undefined && Math.abs(value - this.doubtedVolume.value) < GATE * Math.hypot(sd, this.doubtedVolume.sd) + DOUBT_LOSS_L;
    this.flags.push(words.volumeFlag(ms, this.volumeL, value, again));
    this.doubtedVolume = { value, sd };
    if (!again) return;
    this.unexplainedL += value - this.volumeL;
    this.volumeL = value;
    this.forgetVolume(sd * sd);
    // Nobody knows what was added or lost: the next conductivity decides.
    this.forgetStrength(ASSUMED_SD_SHARE ** 2);
    this.compositionSdShare = ASSUMED_SD_SHARE;
    this.lastLevel = words.level(ms, value, 0);
  }

  private doubtStrength(ms: number, value: number, sd: number, expected: number): void {
    const again = this.doubtedStrength !== undefined && Math.abs(value - this.doubtedStrength.value) < GATE * Math.hypot(sd, this.doubtedStrength.sd) + 0.1 * value;
    this.flags.push(words.conductivityFlag(ms, expected, value, again, this.doubtedVolume !== undefined));
    this.doubtedStrength = { value, sd };
    if (!again) return;
    this.scaleTo(value);
    this.forgetStrength((sd / value) ** 2);
    this.lastStrength = words.conductivity(ms, value, value);
  }

  private forgetVolume(variance: number): void { this.volumeVar = variance; this.volumeFactorCov = 0; }

  private forgetStrength(variance: number): void { this.strengthVar = variance; this.strengthUptakeCov = 0; }

  private concentrations(): Composition { return scaleComposition(this.amounts, 1 / this.volumeL); }

  private conductivity(): number | undefined { return this.volumeL > 1e-6 ? this.pairing * freeIonMsPerCm25(this.concentrations()) : undefined; }
}

function scaled(composition: Composition, names: readonly Component[], factor: number): Composition {
  const out: Amounts = { ...composition };
  for (const name of names) out[name] = out[name]! * factor;
  return out;
}
