import type { HeightPicture } from './heightPicture.ts';

/** Edge of a plant's cells as an SVG path in mm, y upwards; empty where the plant has no cell. Straight runs are one line. */
export function outlineOf(picture: HeightPicture, label: number): string {
  const { columns, rows, cellMm, leftMm, nearMm } = picture;
  const within = (column: number, row: number): boolean => column >= 0 && row >= 0 && column < columns && row < rows && picture.labels[row * columns + column] === label;
  const box = boundsOf(picture, label);
  if (box === undefined) return '';
  const x = (column: number): string => (leftMm + column * cellMm).toFixed(1), y = (row: number): string => (nearMm + row * cellMm).toFixed(1);
  const across = runs(box.bottom, box.top + 1, box.left, box.right, (row, column) => within(column, row - 1) !== within(column, row), (row, from, to) => `M${x(from)} ${y(row)}H${x(to)}`);
  const along = runs(box.left, box.right + 1, box.bottom, box.top, (column, row) => within(column - 1, row) !== within(column, row), (column, from, to) => `M${x(column)} ${y(from)}V${y(to)}`);
  return across + along;
}

function runs(first: number, last: number, from: number, to: number, isEdge: (line: number, at: number) => boolean, draw: (line: number, from: number, to: number) => string): string {
  let path = '';
  for (let line = first; line <= last; line += 1) {
    let begun: number | undefined;
    for (let at = from; at <= to + 1; at += 1) {
      const edge = at <= to && isEdge(line, at);
      if (edge && begun === undefined) begun = at;
      if (!edge && begun !== undefined) { path += draw(line, begun, at); begun = undefined; }
    }
  }
  return path;
}

function boundsOf({ columns, labels }: HeightPicture, label: number): { left: number; right: number; bottom: number; top: number } | undefined {
  let left = columns, right = -1, bottom = 0, top = -1;
  for (let cell = labels.indexOf(label); cell >= 0 && cell < labels.length; cell += 1) {
    if (labels[cell] !== label) continue;
    const column = cell % columns;
    if (top === -1) bottom = Math.floor(cell / columns);
    top = Math.floor(cell / columns);
    if (column < left) left = column;
    if (column > right) right = column;
  }
  return top === -1 ? undefined : { left, right, bottom, top };
}
