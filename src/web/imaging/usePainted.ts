import { useMemo } from 'react';
import type { HeightPicture } from './picture/heightPicture.ts';
import { paintPicture, type Paint } from './picture/paintPicture.ts';
import { shadeOf } from './picture/shadeOf.ts';

/** The picture from above on a canvas of its own, a pixel a cell; a new canvas whenever picture or paint change. */
export function usePainted(picture: HeightPicture | undefined, paint: Paint | undefined): HTMLCanvasElement | undefined {
  const shade = useMemo(() => picture && shadeOf(picture), [picture]);
  return useMemo(() => {
    if (picture === undefined || shade === undefined || paint === undefined) return undefined;
    const canvas = document.createElement('canvas');
    canvas.width = picture.columns;
    canvas.height = picture.rows;
    canvas.getContext('2d')?.putImageData(new ImageData(paintPicture(picture, shade, paint), picture.columns, picture.rows), 0, 0);
    return canvas;
  }, [picture, shade, paint]);
}
