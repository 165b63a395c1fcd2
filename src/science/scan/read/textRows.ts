/** What the rows of one element of a text file hold, in order: single numbers, or lists with their count before them. */
export interface TextElement {
  readonly name: string;
  readonly count: number;
  readonly lists: readonly boolean[];
}

/** Which of the properties of a point row hold its position and colour; a packed colour is 0x00RRGGBB, as a number or as the bits of one. */
export interface TextPoint {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly colour?: { readonly red: number; readonly green: number; readonly blue: number; readonly white: number } | { readonly packed: number };
}
