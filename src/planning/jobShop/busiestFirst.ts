/** A heap of numbered things with the most active on top. Whoever raises an activity says so with `lift`. */
export interface BusiestFirst {
  /** Puts it in, where it is not there already. */
  readonly push: (x: number) => void;
  /** Takes the most active out; -1 where none is left. */
  readonly pop: () => number;
  readonly lift: (x: number) => void;
}

export function busiestFirst(activity: Float64Array): BusiestFirst {
  const heap: number[] = [];
  const place = new Int32Array(activity.length).fill(-1);

  function put(x: number, at: number): void { heap[at] = x; place[x] = at; }

  function rise(x: number): void {
    let at = place[x]!;
    while (at > 0) {
      const up = heap[(at - 1) >> 1]!;
      if (activity[up]! >= activity[x]!) break;
      put(up, at);
      at = (at - 1) >> 1;
    }
    put(x, at);
  }

  function sink(x: number): void {
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down + 1 < heap.length && activity[heap[down + 1]!]! > activity[heap[down]!]!) down += 1;
      if (down >= heap.length || activity[heap[down]!]! <= activity[x]!) break;
      put(heap[down]!, at);
      at = down;
    }
    put(x, at);
  }

  return {
    push(x) { if (place[x]! >= 0) return; place[x] = heap.length; heap.push(x); rise(x); },
    pop() {
      const first = heap[0];
      if (first === undefined) return -1;
      const last = heap.pop()!;
      place[first] = -1;
      if (heap.length > 0) sink(last);
      return first;
    },
    lift(x) { if (place[x]! >= 0) rise(x); },
  };
}
