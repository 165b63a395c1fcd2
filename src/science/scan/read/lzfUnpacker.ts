import { PieceJoiner } from './pieceJoiner.ts';

const LITERALS_BELOW = 32;
const LONG_MATCH = 7;
/** No match reaches further back. */
const WINDOW = 8192;
const LONGEST = 264;
const BUFFER = 65_536;

/**
 * Unpacks LZF piece by piece and gives what comes out, in order, to `give` (which may say stop by false).
 * Source: M. Lehmann, LibLZF (the format is described in its lzf_d.c): a byte below 32 begins a run of literals; any other a copy of
 * what came out before.
 */
export class LzfUnpacker {
  private readonly joiner = new PieceJoiner();
  private readonly out = new Uint8Array(BUFFER);
  private readonly give: (bytes: Uint8Array) => boolean;
  private filled = 0;
  private given = 0;

  constructor(give: (bytes: Uint8Array) => boolean) { this.give = give; }

  /** False when a copy reaches back before the beginning, or `give` said stop. */
  push(piece: Uint8Array): boolean { return this.joiner.push(piece, (bytes) => this.take(bytes)); }

  /** Gives what is left. False when the last instruction is incomplete. */
  finish(): boolean { return this.flush() && this.joiner.rest().length === 0; }

  private take(bytes: Uint8Array): number {
    let at = 0;
    while (at < bytes.length) {
      const control = bytes[at]!;
      const length = control < LITERALS_BELOW ? control + 2 : control >> 5 === LONG_MATCH ? 3 : 2;
      if (at + length > bytes.length) break;
      if (this.filled + LONGEST > BUFFER && !this.makeRoom()) return -1;
      if (control < LITERALS_BELOW) this.copyLiterals(bytes, at + 1, at + length);
      else if (!this.copyMatch(control, bytes, at)) return -1;
      at += length;
    }
    return at;
  }

  private copyLiterals(bytes: Uint8Array, from: number, end: number): void {
    for (let i = from; i < end; i += 1) this.out[this.filled++] = bytes[i]!;
  }

  private copyMatch(control: number, bytes: Uint8Array, at: number): boolean {
    const long = control >> 5 === LONG_MATCH;
    const length = (control >> 5) + (long ? bytes[at + 1]! : 0) + 2;
    let from = this.filled - ((control & 31) << 8) - bytes[at + (long ? 2 : 1)]! - 1;
    if (from < 0) return false;
    const end = this.filled + length;
    while (this.filled < end) this.out[this.filled++] = this.out[from++]!;
    return true;
  }

  private flush(): boolean {
    const piece = this.out.subarray(this.given, this.filled);
    this.given = this.filled;
    return this.give(piece);
  }

  private makeRoom(): boolean {
    const going = this.flush();
    this.out.copyWithin(0, this.filled - WINDOW, this.filled);
    this.filled = WINDOW;
    this.given = WINDOW;
    return going;
  }
}
