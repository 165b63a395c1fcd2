import type { HeightPicture } from '../picture/heightPicture.ts';
import { outlineOf } from '../picture/outlineOf.ts';

/** A copy of the picture from above with the edge of one plant drawn on it; the picture itself where none is picked. */
export function withOutline(painted: HTMLCanvasElement, picture: HeightPicture, picked: number | undefined): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = painted.width;
  canvas.height = painted.height;
  const context = canvas.getContext('2d');
  if (context === null) return painted;
  context.drawImage(painted, 0, 0);
  if (picked === undefined) return canvas;
  const { cellMm, leftMm, nearMm, rows } = picture;
  context.setTransform(1 / cellMm, 0, 0, -1 / cellMm, -leftMm / cellMm, rows + nearMm / cellMm);
  const path = new Path2D(outlineOf(picture, picked + 1));
  for (const [colour, width] of [['#fffefa', 5], ['#0a5c66', 2.6]] as const) {
    context.strokeStyle = colour;
    context.lineWidth = width * cellMm;
    context.stroke(path);
  }
  return canvas;
}
