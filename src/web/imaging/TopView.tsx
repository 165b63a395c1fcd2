import { useEffect, useMemo, useRef, type KeyboardEvent, type MouseEvent } from 'react';
import type { ScanAnswer } from '../../desk/contract.ts';
import { outlineOf } from './picture/outlineOf.ts';
import type { HeightPicture } from './picture/heightPicture.ts';
import { cellAt } from './picture/heightPicture.ts';
import { PlantMarks } from './PlantMarks.tsx';
import { ARROWS, nearestPlace, pitchOf, stepFrom } from './plantSteps.ts';

interface Props {
  readonly scan: Pick<ScanAnswer, 'rafts' | 'plants'>;
  readonly picture: HeightPicture;
  /** The picture, a pixel a cell. */
  readonly painted: HTMLCanvasElement;
  readonly marks: boolean;
  /** Proposed classes are marked too. */
  readonly proposals: boolean;
  readonly zoom: number;
  readonly picked: number | undefined;
  readonly pick: (plant: number) => void;
  readonly label: string;
}

/** The basin from above. A click, a tap or the arrow keys pick a plant. */
export function TopView({ scan, picture, painted, marks, proposals, zoom, picked, pick, label }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const { columns, rows, cellMm, leftMm, nearMm } = picture;
  const [widthMm, depthMm] = [columns * cellMm, rows * cellMm];
  const pitchMm = useMemo(() => pitchOf(scan.plants), [scan.plants]);
  const outline = useMemo(() => (picked === undefined ? '' : outlineOf(picture, picked + 1)), [picture, picked]);
  const chosen = picked === undefined ? undefined : scan.plants[picked];
  useEffect(() => { canvas.current?.getContext('2d')?.drawImage(painted, 0, 0); }, [painted]);
  useEffect(() => { if (chosen !== undefined && box.current !== null) bringIntoView(box.current, zoom, (chosen.xMm - leftMm) / widthMm, (nearMm + depthMm - chosen.yMm) / widthMm); }, [chosen, zoom, leftMm, nearMm, widthMm, depthMm]);

  const pickAt = (event: MouseEvent<HTMLDivElement>): void => {
    const frame = event.currentTarget.getBoundingClientRect();
    const [x, y] = [leftMm + ((event.clientX - frame.left) / frame.width) * widthMm, nearMm + (1 - (event.clientY - frame.top) / frame.height) * depthMm];
    const under = picture.labels[cellAt(picture, x, y) ?? -1] ?? 0;
    const found = under === 0 ? nearestPlace(scan.plants, x, y, pitchMm * 0.7) : under - 1;
    if (found !== undefined) pick(found);
  };
  const step = (event: KeyboardEvent): void => {
    const arrow = ARROWS[event.key];
    if (arrow === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    pick(stepFrom(scan.plants, picked, arrow));
  };
  return (
    <div className="above-scroll" ref={box}>
      <div className="above" style={{ width: `${zoom * 100}%`, aspectRatio: `${columns} / ${rows}` }} tabIndex={0} role="group" aria-label={label} onClick={pickAt} onKeyDown={step}>
        <canvas ref={canvas} width={columns} height={rows} aria-hidden="true" />
        <svg viewBox={`${leftMm} ${-nearMm - depthMm} ${widthMm} ${depthMm}`} aria-hidden="true">
          {marks && <PlantMarks scan={scan} pitchMm={pitchMm} proposals={proposals} />}
          {chosen && <><path className="picked-under" d={outline} transform="scale(1 -1)" /><path className="picked" d={outline} transform="scale(1 -1)" />{outline === '' && <circle className="picked" cx={chosen.xMm} cy={-chosen.yMm} r={pitchMm * 0.36} />}</>}
        </svg>
      </div>
    </div>
  );
}

/** Scrolls a box so that a place is seen; both coordinates in shares of the width of what is inside, which is `zoom` times as wide as the box. */
function bringIntoView(box: HTMLElement, zoom: number, across: number, down: number): void {
  const [x, y] = [across, down].map((share) => share * zoom * box.clientWidth) as [number, number];
  const hidden = x < box.scrollLeft + 24 || x > box.scrollLeft + box.clientWidth - 24 || y < box.scrollTop + 24 || y > box.scrollTop + box.clientHeight - 24;
  if (hidden) box.scrollTo({ left: x - box.clientWidth / 2, top: y - box.clientHeight / 2 });
}
