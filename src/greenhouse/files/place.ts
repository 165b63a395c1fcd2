/** A place in a text file, counted from 1. */
export interface Place { readonly line: number; readonly column: number }

/** "orders.csv:12:5" */
export const writePlace = (file: string, place: Place | undefined): string =>
  (place === undefined ? file : `${file}:${place.line}:${place.column}`);

/** Line and column of an offset into a text. Offsets of the line starts are found once. */
export function placesIn(text: string): (offset: number) => Place {
  const starts = [0];
  for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return (offset) => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle]! <= offset) low = middle; else high = middle - 1;
    }
    return { line: low + 1, column: offset - starts[low]! + 1 };
  };
}
