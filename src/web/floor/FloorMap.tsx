import { Link } from '@tanstack/react-router';
import { memo } from 'react';
import type { BasinStanding, BoundsM, FloorAnswer, FloorBasin, PointM } from '../../desk/contract.ts';
import { useNarrow } from '../parts/useNarrow.ts';
import { KIND_WORDS } from '../words/kinds.ts';
import { BasinGlyph } from './BasinGlyph.tsx';
import { boxAround, frameFloor } from './frameFloor.ts';
import { raisedTitles, TITLE_M } from './raisedTitles.ts';

interface Props {
  readonly floor: FloorAnswer;
  readonly bay: string | undefined;
  readonly only: BasinStanding | undefined;
  readonly picked: string | undefined;
  readonly pick: (basin: string) => void;
}

/** The floor seen from above, to scale. Arrow keys are not needed: every basin is reached by its number or by Tab. */
export function FloorMap({ floor, bay, only, picked, pick }: Props) {
  const narrow = useNarrow();
  const bounds = floor.bays.find((is) => is.id === bay)?.boundsM ?? floor.boundsM;
  const frame = frameFloor(bounds, narrow);
  return (
    <figure className="floor-map">
      <div className="floor-scroll" tabIndex={0} role="group" aria-label="Map of the floor, scrolls sideways where it is wider than the screen">
        <svg viewBox={`${bounds.left} ${bounds.top} ${frame.widthM} ${frame.heightM}`} style={{ minWidth: `${frame.leastPx}px` }} role="group" aria-label="Map of the floor">
          <Ground floor={floor} />
          <BayTitles floor={floor} />
          {floor.basins.map((basin) => <BasinOnFloor key={basin.basin} basin={basin} dim={only !== undefined && basin.standing !== only} picked={basin.basin === picked} pick={pick} />)}
          <Stations floor={floor} />
          <ScaleBar bounds={bounds} lengthM={frame.scaleM} />
        </svg>
      </div>
      <figcaption className="soft small">To scale, north up, from the floor described in greenhouse.yaml; basins where the journal last put them. The letter in a basin is what it needs: {Object.values(KIND_WORDS).map((is) => `${is.letter} ${is.work.toLowerCase()}`).join(', ')}; underlined: must today. Vehicles are drawn at home: the desk does not track them.</figcaption>
    </figure>
  );
}

const Ground = memo(function Ground({ floor }: { readonly floor: FloorAnswer }) {
  return (
    <>
      {floor.bays.map((bay) => (
        <g key={bay.id} className="bay">
          <rect {...rectOf(bay.boundsM)} rx={0.3} />
        </g>
      ))}
      <g className="floor-lanes">{floor.lanes.map((lane) => <line key={`${lane.fromM.join()}-${lane.toM.join()}`} x1={lane.fromM[0]} y1={lane.fromM[1]} x2={lane.toM[0]} y2={lane.toM[1]} />)}</g>
      <g className="free-berths">{floor.freeBerths.map((berth) => <rect key={berth.id} {...boxAround(berth.atM, berth.sizeM)} />)}</g>
    </>
  );
});

function BayTitles({ floor }: { readonly floor: FloorAnswer }) {
  return (
    <g className="bay">
      {floor.bays.map((bay) => (
        <g key={bay.id}>
          <text x={bay.boundsM.left + 0.5} y={bay.boundsM.top + 1.3} fontSize={1.15}>{bay.title}</text>
          <text x={bay.boundsM.left + 0.5} y={bay.boundsM.top + 2.3} fontSize={0.8} className="bay-note">{bay.planted} of {bay.basins} planted</text>
        </g>
      ))}
    </g>
  );
}

const BasinOnFloor = memo(function BasinOnFloor({ basin, dim, picked, pick }: { readonly basin: FloorBasin; readonly dim: boolean; readonly picked: boolean; readonly pick: (basin: string) => void }) {
  const box = boxAround(basin.atM, basin.sizeM);
  const size = Math.min(basin.sizeM[1] * 0.5, (basin.sizeM[0] * 0.48) / (basin.basin.length * 0.56));
  const letters = basin.needs.map((need) => ({ letter: KIND_WORDS[need.kind].letter, must: need.urgency === 'must' }));
  return (
    <Link to="/basin/$id" params={{ id: basin.basin }} className={`floor-basin${dim ? ' dim' : ''}${picked ? ' picked' : ''}`} aria-label={`Basin ${basin.basin}: ${basin.standing}`} onClick={(event) => { event.preventDefault(); pick(basin.basin); }} preload={false}>
      <BasinGlyph box={box} standing={basin.standing} />
      <text x={box.x + size * 0.2} y={box.y + box.height * (letters.length > 0 ? 0.28 : 0.5)} fontSize={size} dominantBaseline="central">{basin.basin}</text>
      {letters.length > 0 && <text x={box.x + size * 0.2} y={box.y + box.height * 0.74} fontSize={size} dominantBaseline="central" className="need">{letters.map(({ letter, must }) => <tspan key={letter} textDecoration={must ? 'underline' : undefined}>{letter}</tspan>)}</text>}
    </Link>
  );
});

function Stations({ floor }: { readonly floor: FloorAnswer }) {
  const raised = raisedTitles(floor.stations);
  return (
    <g className="floor-stations">
      {floor.stations.map((is) => <Place key={is.id} atM={is.atM} title={is.title} isRaised={raised.has(is.id)} note={`${is.stopsToday} stops`} />)}
      {floor.vehicles.map((is) => <g key={is.id} className="vehicle"><path d={`M${is.atM[0] - 0.9} ${is.atM[1] - 0.5}h1.2l.6 .5-.6 .5h-1.2z`} /><text x={is.atM[0] - 1.1} y={is.atM[1]} fontSize={0.8} textAnchor="end" dominantBaseline="central">{is.title}</text></g>)}
    </g>
  );
}

function Place({ atM: [x, y], title, note, isRaised }: { readonly atM: PointM; readonly title: string; readonly note: string; readonly isRaised: boolean }) {
  return (
    <g className="station">
      <rect x={x - 1.8} y={y - 0.8} width={3.6} height={1.6} />
      <text x={x} y={y - (isRaised ? 2.1 : 1.15)} fontSize={TITLE_M} textAnchor="middle" fontWeight={600}>{title}</text>
      <text x={x} y={y} fontSize={0.75} textAnchor="middle" dominantBaseline="central">{note}</text>
    </g>
  );
}

function ScaleBar({ bounds, lengthM }: { readonly bounds: BoundsM; readonly lengthM: number }) {
  const y = bounds.bottom - 0.5;
  return <g className="scale"><path d={`M${bounds.left + 0.4} ${y - 0.3}v.3h${lengthM}v-.3`} /><text x={bounds.left + 0.4 + lengthM + 0.3} y={y} fontSize={0.9}>{lengthM} m</text></g>;
}

const rectOf = (bounds: BoundsM) => ({ x: bounds.left, y: bounds.top, width: bounds.right - bounds.left, height: bounds.bottom - bounds.top });
