import { busiestFirst } from './busiestFirst.ts';
import { groupBy } from './groupBy.ts';
import type { ConflictSearch } from './conflictSearch.ts';
import { luby } from './luby.ts';

const DECISION = 0, DIFFERENCE = 1, CONDITION = 2, CLAUSE = 3;
const RESTART = 100;
/** Visits that the learning from a conflict takes about as long as. */
const ANALYSIS = 500;

/** The search of conflictSearch.ts, in flat arrays of whole numbers. */
export function boundSearch(): ConflictSearch {
  // Variables.
  const top: number[] = [];
  const choices: number[] = [], hintFirst: number[] = [], hintSecond: number[] = [];
  // Differences: top[target] <= top[source] + weight where the condition holds (-1: always).
  const source: number[] = [], target: number[] = [], weight: number[] = [], condition: number[] = [];
  const given: number[][] = [];
  let isSealed = false, isEmpty = false;
  let bound = new Int32Array(0), lastEvent = new Int32Array(0), needStamp = new Int32Array(0), needValue = new Int32Array(0), needEvent = new Int32Array(0);
  let outStart = new Int32Array(0), outEdge = new Int32Array(0), whenStart = new Int32Array(0), whenEdge = new Int32Array(0);
  let isChoice = new Uint8Array(0), phase = new Int8Array(0), saved = new Int8Array(0), activity = new Float64Array(0), open = busiestFirst(activity);
  let edgeSource = new Int32Array(0), edgeTarget = new Int32Array(0), edgeWeight = new Int32Array(0), edgeCondition = new Int32Array(0);
  let firstHint = new Int32Array(0), secondHint = new Int32Array(0);
  // Trail: what bound fell, from what, why, at which depth.
  let room = 1 << 14;
  let eventSign = new Int32Array(room), eventBefore = new Int32Array(room), eventPrevious = new Int32Array(room), eventKind = new Uint8Array(room), eventReason = new Int32Array(room), eventDepth = new Int32Array(room);
  let size = 0, next = 0;
  const depthStart: number[] = [];
  // Clauses: pairs (sign, value); watched by the signs whose falling bound makes a literal false.
  const clauses: (Int32Array | undefined)[] = [];
  const clauseActivity: number[] = [];
  const watchers: number[][] = [];
  let learned = 0, learnedLimit = 3000;
  let stamp = 0, atDepth = 0, analysed = 0, step = 1, clauseStep = 1, work = 0, restarts = 0;
  const conflict: number[] = [], reasons: number[] = [];

  const wanted = (sign: number): number => -(sign & 1);

  function seal(): void {
    isSealed = true;
    const signs = top.length, edges = source.length;
    bound = Int32Array.from(top);
    lastEvent = new Int32Array(signs).fill(-1);
    needStamp = new Int32Array(signs); needValue = new Int32Array(signs); needEvent = new Int32Array(signs);
    [outStart, outEdge] = groupBy(source, signs);
    [whenStart, whenEdge] = groupBy(condition, signs);
    edgeSource = Int32Array.from(source); edgeTarget = Int32Array.from(target); edgeWeight = Int32Array.from(weight); edgeCondition = Int32Array.from(condition);
    isChoice = new Uint8Array(signs / 2); phase = new Int8Array(signs / 2).fill(-1); saved = new Int8Array(signs / 2).fill(-1); activity = new Float64Array(signs / 2); open = busiestFirst(activity);
    firstHint = Int32Array.from(hintFirst); secondHint = Int32Array.from(hintSecond);
    for (let s = 0; s < signs; s += 1) watchers.push([]);
    choices.forEach((x, i) => { isChoice[x] = 1; activity[x] = 1e-6 * (choices.length - i) / choices.length; open.push(x); });
    for (const signsOf of given) {
      const literals = Int32Array.from(signsOf.flatMap((s) => [s, wanted(s)]));
      if (signsOf.length === 1) { if (!lower(signsOf[0]!, wanted(signsOf[0]!), DECISION, -1)) isEmpty = true; } else watch(literals, 0);
    }
    for (let e = 0; e < edges && !isEmpty; e += 1) if (!follow(e)) isEmpty = true;
    if (!isEmpty && !propagate()) isEmpty = true;
  }

  /** top of sign falls to value. False where that contradicts the opposite bound; `conflict` then holds why. */
  function lower(sign: number, value: number, kind: number, reason: number): boolean {
    if (value >= bound[sign]!) return true;
    if (value < -bound[sign ^ 1]!) {
      conflict.length = 0;
      conflict.push(sign ^ 1, -value - 1);
      explain(kind, reason, sign, value, size, conflict);
      return false;
    }
    if (size === room) grow();
    eventSign[size] = sign; eventBefore[size] = bound[sign]!; eventPrevious[size] = lastEvent[sign]!; eventKind[size] = kind; eventReason[size] = reason; eventDepth[size] = depthStart.length;
    lastEvent[sign] = size;
    bound[sign] = value;
    size += 1;
    return true;
  }

  function grow(): void {
    room *= 2;
    const larger = (old: Int32Array): Int32Array<ArrayBuffer> => { const fresh = new Int32Array(room); fresh.set(old); return fresh; };
    eventSign = larger(eventSign); eventBefore = larger(eventBefore); eventPrevious = larger(eventPrevious); eventReason = larger(eventReason); eventDepth = larger(eventDepth);
    const kinds = new Uint8Array(room); kinds.set(eventKind); eventKind = kinds;
  }

  /** What one difference says about the present bounds. */
  function follow(e: number): boolean {
    const t = edgeTarget[e]!, value = bound[edgeSource[e]!]! + edgeWeight[e]!;
    if (value >= bound[t]!) return true;
    const c = edgeCondition[e]!;
    if (c < 0 || bound[c]! <= -(c & 1)) return lower(t, value, DIFFERENCE, e);
    if (value < -bound[t ^ 1]! && bound[c ^ 1]! > -((c ^ 1) & 1)) return lower(c ^ 1, wanted(c ^ 1), CONDITION, e);
    return true;
  }

  function propagate(): boolean {
    while (next < size) {
      const s = eventSign[next]!, before = eventBefore[next]!;
      next += 1;
      work += 1 + outStart[s + 1]! - outStart[s]! + whenStart[s + 1]! - whenStart[s]! + (watchers[s]!.length >> 1);
      for (let i = outStart[s]!; i < outStart[s + 1]!; i += 1) if (!follow(outEdge[i]!)) return false;
      for (let i = whenStart[s]!; i < whenStart[s + 1]!; i += 1) if (!follow(whenEdge[i]!)) return false;
      if (watchers[s]!.length > 0 && !visit(s, before)) return false;
    }
    return true;
  }

  /** Clauses that watch a literal which the fall of this bound may have made false. */
  function visit(s: number, before: number): boolean {
    const list = watchers[s]!, now = bound[s]!;
    let kept = 0;
    for (let i = 0; i < list.length; i += 2) {
      const c = list[i]!, threshold = list[i + 1]!;
      if (now > threshold || before <= threshold) { list[kept++] = c; list[kept++] = threshold; continue; }
      const literals = clauses[c];
      if (literals === undefined) continue;
      if (literals[0] === (s ^ 1) && literals[1] === -threshold - 1) { literals[0] = literals[2]!; literals[1] = literals[3]!; literals[2] = s ^ 1; literals[3] = -threshold - 1; }
      if (bound[literals[0]!]! <= literals[1]!) { list[kept++] = c; list[kept++] = threshold; continue; }
      let found = false;
      for (let k = 4; k < literals.length; k += 2) {
        const sign = literals[k]!, value = literals[k + 1]!;
        if (bound[sign ^ 1]! <= -value - 1) continue;
        literals[2] = sign; literals[3] = value; literals[k] = s ^ 1; literals[k + 1] = -threshold - 1;
        watchers[sign ^ 1]!.push(c, -value - 1);
        found = true;
        break;
      }
      if (found) continue;
      list[kept++] = c; list[kept++] = threshold;
      if (lower(literals[0]!, literals[1]!, CLAUSE, c)) continue;
      for (let k = i + 2; k < list.length; k += 1) list[kept++] = list[k]!;
      list.length = kept;
      return false;
    }
    list.length = kept;
    return true;
  }

  function watch(literals: Int32Array, value: number): number {
    const c = clauses.length;
    clauses.push(literals);
    clauseActivity.push(value);
    watchers[literals[0]! ^ 1]!.push(c, -literals[1]! - 1);
    watchers[literals[2]! ^ 1]!.push(c, -literals[3]! - 1);
    return c;
  }

  /** Literals that force "sign is at most value", all true before the event, as weak as the reason allows. */
  function explain(kind: number, reason: number, sign: number, value: number, event: number, into: number[]): void {
    if (kind === DIFFERENCE) {
      into.push(edgeSource[reason]!, value - edgeWeight[reason]!);
      const c = edgeCondition[reason]!;
      if (c >= 0) into.push(c, -(c & 1));
    } else if (kind === CONDITION) {
      const t = edgeTarget[reason]!;
      const opposite = boundBefore(t ^ 1, event);
      into.push(t ^ 1, opposite, edgeSource[reason]!, -opposite - 1 - edgeWeight[reason]!);
    } else if (kind === CLAUSE) {
      const literals = clauses[reason]!;
      if (clauseActivity[reason]! > 0) clauseActivity[reason]! += clauseStep;
      for (let k = 0; k < literals.length; k += 2) if (literals[k] !== sign || literals[k + 1]! > value) into.push(literals[k]! ^ 1, -literals[k + 1]! - 1);
    }
  }

  function boundBefore(sign: number, event: number): number {
    let value = bound[sign]!;
    for (let e = lastEvent[sign]!; e >= event; e = eventPrevious[e]!) value = eventBefore[e]!;
    return value;
  }

  /** The first event that made the literal true; -1 where it always was. */
  function eventOf(sign: number, value: number): number {
    let e = lastEvent[sign]!;
    for (; e >= 0 && eventBefore[e]! <= value; e = eventPrevious[e]!);
    return e;
  }

  function need(sign: number, value: number): void {
    if (needStamp[sign] === stamp && needValue[sign]! <= value) return;
    const e = eventOf(sign, value);
    if (e < 0 || eventDepth[e] === 0) return;
    if (needStamp[sign] === stamp && needEvent[sign]! >= 0 && eventDepth[needEvent[sign]!] === atDepth) analysed -= 1;
    needStamp[sign] = stamp; needValue[sign] = value; needEvent[sign] = e;
    if (eventDepth[e] === atDepth) analysed += 1;
    if (isChoice[sign >> 1] === 1) bump(sign >> 1);
  }

  const isNeeded = (e: number): boolean => { const s = eventSign[e]!; return needStamp[s] === stamp && needEvent[s] === e; };

  /** Learns from `conflict`, goes back and asserts what follows. False where nothing is left. */
  function learn(): boolean {
    work += ANALYSIS;
    stamp += 1;
    atDepth = 0;
    for (let k = 0; k < conflict.length; k += 2) { const e = eventOf(conflict[k]!, conflict[k + 1]!); if (e >= 0) atDepth = Math.max(atDepth, eventDepth[e]!); }
    if (atDepth === 0) return false;
    analysed = 0;
    const touched: number[] = [];
    for (let k = 0; k < conflict.length; k += 2) { need(conflict[k]!, conflict[k + 1]!); touched.push(conflict[k]!); }
    let e = size - 1;
    for (;;) {
      while (!isNeeded(e)) e -= 1;
      if (analysed === 1) break;
      const s = eventSign[e]!;
      const value = needValue[s]!;
      needStamp[s] = 0;
      analysed -= 1;
      reasons.length = 0;
      explain(eventKind[e]!, eventReason[e]!, s, value, e, reasons);
      for (let k = 0; k < reasons.length; k += 2) { need(reasons[k]!, reasons[k + 1]!); touched.push(reasons[k]!); }
      e -= 1;
    }
    const first = eventSign[e]!;
    const rest = [...new Set(touched)].filter((s) => needStamp[s] === stamp && s !== first && eventDepth[needEvent[s]!]! > 0);
    const others = rest.filter((s) => !isRedundant(s));
    const literals = new Int32Array(2 + 2 * others.length);
    literals[0] = first ^ 1; literals[1] = -needValue[first]! - 1;
    let back = 0, at = 2;
    others.forEach((s, i) => {
      literals[2 + 2 * i] = s ^ 1; literals[3 + 2 * i] = -needValue[s]! - 1;
      const d = eventDepth[needEvent[s]!]!;
      if (d > back) { back = d; at = 2 + 2 * i; }
    });
    if (others.length > 0) { const [s, v] = [literals[2]!, literals[3]!]; literals[2] = literals[at]!; literals[3] = literals[at + 1]!; literals[at] = s; literals[at + 1] = v; }
    retreat(back);
    step *= 1.05; clauseStep *= 1.001;
    if (step > 1e100) { for (const x of choices) activity[x]! *= 1e-100; step *= 1e-100; }
    if (clauseStep > 1e30) { clauseActivity.forEach((a, c) => { clauseActivity[c] = a * 1e-30; }); clauseStep *= 1e-30; }
    if (others.length === 0) return lower(literals[0]!, literals[1]!, DECISION, -1);
    learned += 1;
    return lower(literals[0]!, literals[1]!, CLAUSE, watch(literals, clauseStep));
  }

  /** Whether the other needed literals imply it already. */
  function isRedundant(s: number): boolean {
    const e = needEvent[s]!;
    if (eventKind[e] === DECISION) return false;
    reasons.length = 0;
    explain(eventKind[e]!, eventReason[e]!, s, needValue[s]!, e, reasons);
    for (let k = 0; k < reasons.length; k += 2) {
      const r = reasons[k]!;
      if (needStamp[r] === stamp && needValue[r]! <= reasons[k + 1]! && needEvent[r]! <= e) continue;
      const first = eventOf(r, reasons[k + 1]!);
      if (first >= 0 && eventDepth[first]! > 0) return false;
    }
    return true;
  }

  function retreat(to: number): void {
    if (depthStart.length <= to) return;
    const start = depthStart[to]!;
    for (let e = size - 1; e >= start; e -= 1) {
      const s = eventSign[e]!;
      const x = s >> 1;
      if (isChoice[x] === 1) { saved[x] = s & 1; open.push(x); }
      bound[s] = eventBefore[e]!;
      lastEvent[s] = eventPrevious[e]!;
    }
    size = start;
    next = start;
    depthStart.length = to;
  }

  function forgetHalf(): void {
    const locked = new Set<number>();
    for (let e = 0; e < size; e += 1) if (eventKind[e] === CLAUSE) locked.add(eventReason[e]!);
    const old = clauses.flatMap((literals, c) => (literals !== undefined && clauseActivity[c]! > 0 && literals.length > 4 && !locked.has(c) ? [c] : [])).sort((a, b) => clauseActivity[a]! - clauseActivity[b]!);
    for (const c of old.slice(0, old.length >> 1)) { clauses[c] = undefined; learned -= 1; }
    learnedLimit += 300;
  }

  function bump(x: number): void {
    activity[x]! += step;
    open.lift(x);
  }
  /** Decides one more choice. False where all are decided. */
  function decide(): boolean {
    for (let x = open.pop(); x >= 0; x = open.pop()) {
      if (bound[2 * x] === 0 || bound[2 * x + 1] === -1) continue;
      const s = 2 * x + preferred(x);
      depthStart.push(size);
      lower(s, wanted(s), DECISION, -1);
      return true;
    }
    return false;
  }

  function preferred(x: number): number {
    const known = (restarts & 1) === 0 ? phase[x]! : saved[x]!;
    if (known >= 0) return known;
    if (saved[x]! >= 0) return saved[x]!;
    const [a, b] = [firstHint[x]!, secondHint[x]!];
    if (a < 0) return 0;
    return bound[2 * a]! - bound[2 * a + 1]! <= bound[2 * b]! - bound[2 * b + 1]! ? 1 : 0;
  }

  function run(budget: number, isStopped: () => boolean): 'found' | 'none' | 'unknown' {
    if (!isSealed) seal();
    retreat(0);
    if (isEmpty || !propagate()) { isEmpty = true; return 'none'; }
    let untilRestart = RESTART * luby(restarts);
    const end = work + budget;
    for (let met = 0; ; ) {
      if (!propagate()) {
        if (!learn()) { isEmpty = true; return 'none'; }
        met += 1;
        untilRestart -= 1;
        continue;
      }
      if (work >= end || ((met & 15) === 0 && isStopped())) { retreat(0); return 'unknown'; }
      if (untilRestart <= 0) { retreat(0); restarts += 1; untilRestart = RESTART * luby(restarts); }
      if (learned > learnedLimit) forgetHalf();
      if (!decide()) return 'found';
    }
  }

  return {
    addVariable(low, high) { top.push(high, -low); hintFirst.push(-1); hintSecond.push(-1); return top.length / 2 - 1; },
    addChoice(hint) { top.push(1, 0); hintFirst.push(hint?.[0] ?? -1); hintSecond.push(hint?.[1] ?? -1); choices.push(top.length / 2 - 1); return top.length / 2 - 1; },
    addDifference(earlier, later, distance, when = -1) {
      source.push(2 * earlier + 1, 2 * later); target.push(2 * later + 1, 2 * earlier); weight.push(-distance, -distance); condition.push(when, when);
    },
    addClause: (signs) => { given.push([...signs]); },
    lowerTop(variable, high) {
      if (!isSealed) { top[2 * variable] = Math.min(top[2 * variable]!, high); isEmpty ||= high < -top[2 * variable + 1]!; return; }
      retreat(0);
      if (!isEmpty && !lower(2 * variable, high, DECISION, -1)) isEmpty = true;
    },
    run,
    lowOf: (variable) => 0 - (isSealed ? bound : top)[2 * variable + 1]!,
    highOf: (variable) => (isSealed ? bound : top)[2 * variable]!,
    rememberChoices() { for (const x of choices) phase[x] = bound[2 * x + 1] === -1 ? 1 : 0; },
    work: () => work,
  };
}
