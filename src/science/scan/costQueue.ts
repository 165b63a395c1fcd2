/** Cells by cost, in buckets of equal width: cheaper than a heap, and exact enough for ways of many cells. */
export class CostQueue {
  private heads = new Int32Array(1024).fill(-1);
  private cells = new Int32Array(1 << 16);
  private nexts = new Int32Array(1 << 16);
  private used = 0;
  private at = 0;
  private readonly perCost: number;

  constructor(widthOfBucket: number) { this.perCost = 1 / widthOfBucket; }

  put(cell: number, cost: number): void {
    const bucket = (cost * this.perCost) | 0;
    if (bucket >= this.heads.length) this.heads = lengthened(this.heads, Math.max(2 * this.heads.length, bucket + 1), -1);
    if (this.used === this.cells.length) {
      this.cells = lengthened(this.cells, 2 * this.used, 0);
      this.nexts = lengthened(this.nexts, 2 * this.used, 0);
    }
    this.cells[this.used] = cell;
    this.nexts[this.used] = this.heads[bucket]!;
    this.heads[bucket] = this.used;
    this.used += 1;
  }

  /** A cell of the cheapest bucket; -1 when none is left. */
  take(): number {
    while (this.at < this.heads.length) {
      const entry = this.heads[this.at]!;
      if (entry >= 0) { this.heads[this.at] = this.nexts[entry]!; return this.cells[entry]!; }
      this.at += 1;
    }
    return -1;
  }

  /** Whether a cell of this cost was taken earlier: it has been put again more cheaply since. */
  isPast(cost: number): boolean { return ((cost * this.perCost) | 0) < this.at; }
}

function lengthened(values: Int32Array, length: number, filler: number): Int32Array<ArrayBuffer> {
  const longer = new Int32Array(length).fill(filler, values.length);
  longer.set(values);
  return longer;
}
