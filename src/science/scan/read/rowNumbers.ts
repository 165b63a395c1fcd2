import { latin1 } from './headerLines.ts';

const POWERS = Float64Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));
const [SPACE, TAB, RETURN, PLUS, MINUS, POINT, ZERO] = [32, 9, 13, 43, 45, 46, 48];
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const NOT_FINITE = /^[+-]?(nan(\(.*\))?|inf(inity)?|1\.#(ind|qnan|inf)0*)$/i;

const isGap = (byte: number) => byte === SPACE || byte === TAB || byte === RETURN;

/** The numbers of one line of text, read from its bytes without making text of them. */
export class RowNumbers {
  /** Only the first `count` of the last row are meant. NaN stands for NaN and infinity alike. */
  readonly values: Float64Array;
  count = 0;
  private at = 0;

  constructor(mostNumbers: number) { this.values = new Float64Array(mostNumbers); }

  /** False when the line holds something that is no number, or more numbers than there is room for. */
  read(line: Uint8Array, from: number, end: number): boolean {
    this.count = 0;
    this.at = from;
    for (;;) {
      while (this.at < end && isGap(line[this.at]!)) this.at += 1;
      if (this.at >= end) return true;
      if (this.count >= this.values.length || !this.readOne(line, end)) return false;
    }
  }

  /**
   * Up to 15 digits and powers of ten up to 22 are exact in one multiplication or division (W.D. Clinger 1990, "How to read floating point
   * numbers accurately"); anything else goes the long way.
   */
  private readOne(line: Uint8Array, end: number): boolean {
    const start = this.at;
    const negative = line[start] === MINUS;
    let at = negative || line[start] === PLUS ? start + 1 : start;
    let whole = 0;
    let digits = 0;
    let fraction = 0;
    let pointSeen = false;
    for (; at < end; at += 1) {
      const digit = line[at]! - ZERO;
      if (digit >= 0 && digit <= 9) {
        whole = whole * 10 + digit;
        digits += 1;
        if (pointSeen) fraction += 1;
      } else if (line[at] === POINT && !pointSeen) pointSeen = true;
      else break;
    }
    if (digits === 0 || digits > 15 || (at < end && !isGap(line[at]!))) return this.readLong(line, start, end);
    const value = whole / POWERS[fraction]!;
    this.values[this.count] = negative ? -value : value;
    this.count += 1;
    this.at = at;
    return true;
  }

  private readLong(line: Uint8Array, start: number, end: number): boolean {
    let at = start;
    while (at < end && !isGap(line[at]!)) at += 1;
    const text = latin1(line.subarray(start, at));
    const isNumber = NUMBER.test(text);
    if (!isNumber && !NOT_FINITE.test(text)) return false;
    this.values[this.count] = isNumber ? Number(text) : Number.NaN;
    this.count += 1;
    this.at = at;
    return true;
  }
}
