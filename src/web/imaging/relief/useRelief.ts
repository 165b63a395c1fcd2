import { useEffect, useRef, useState, type RefObject } from 'react';
import type { HeightPicture } from '../picture/heightPicture.ts';
import type { Relief } from './openRelief.ts';

export interface OpenedRelief { readonly relief: Relief | undefined; readonly trouble: string | undefined }

/** Opens a relief on a canvas once the part of the program that draws it has come; says why where the device cannot. `said` is told how many points are drawn. */
export function useRelief(canvas: RefObject<HTMLCanvasElement | null>, picture: HeightPicture, plantCount: number, said: (drawn: number) => void): OpenedRelief {
  const [relief, setRelief] = useState<Relief>();
  const [trouble, setTrouble] = useState<string>();
  const tell = useRef(said);
  useEffect(() => { tell.current = said; });
  useEffect(() => {
    let opened: Relief | undefined, gone = false;
    const open = async (): Promise<void> => {
      const { openRelief } = await import('./openRelief.ts');
      if (gone || canvas.current === null) return;
      opened = openRelief(canvas.current, picture, plantCount, (drawn) => tell.current(drawn));
      setRelief(opened);
    };
    open().catch(() => setTrouble('This device cannot draw in relief (no WebGL 2). The picture from above shows the same plants and is enough to score them.'));
    return () => { gone = true; setRelief(undefined); opened?.close(); };
  }, [canvas, picture, plantCount]);
  return { relief, trouble };
}
