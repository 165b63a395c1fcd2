/**
 * Hands out the bytes of a file from its pieces: at once what lies within one piece, joined what spans two. A taker reads from `at`
 * what is complete and returns how many bytes it took; what it leaves is kept for the next piece.
 */
export class PieceJoiner {
  private kept = new Uint8Array(0);

  /** True unless the taker gave up by returning a negative number. */
  push(piece: Uint8Array, take: (bytes: Uint8Array) => number): boolean {
    let from = 0;
    while (this.kept.length > 0 && from < piece.length) {
      const more = Math.min(piece.length - from, Math.max(this.kept.length, 64));
      const joined = join(this.kept, piece.subarray(from, from + more));
      const taken = take(joined);
      if (taken < 0) return false;
      from += more;
      if (taken >= this.kept.length && taken < joined.length) { from -= joined.length - taken; this.kept = new Uint8Array(0); } else this.kept = joined.slice(taken);
    }
    if (from >= piece.length) return true;
    const taken = take(piece.subarray(from));
    if (taken < 0) return false;
    this.kept = piece.slice(from + taken);
    return true;
  }

  /** What no taker took. */
  rest(): Uint8Array { return this.kept; }
}

function join(a: Uint8Array, b: Uint8Array): Uint8Array<ArrayBuffer> {
  const joined = new Uint8Array(a.length + b.length);
  joined.set(a);
  joined.set(b, a.length);
  return joined;
}
