import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { BasinStanding, FloorAnswer } from '../../desk/contract.ts';
import { floorQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { count } from '../words/figures.ts';
import { BasinFinder } from './BasinFinder.tsx';
import { BasinPick } from './BasinPick.tsx';
import { FloorMap } from './FloorMap.tsx';
import { FloorKey } from './FloorKey.tsx';
import './floor.css';

/** Where everything stands, to scale. */
export function FloorPage() {
  const query = useQuery(floorQuestion);
  return <Asked query={query} what="the floor">{(floor) => <Floor floor={floor} />}</Asked>;
}

function Floor({ floor }: { readonly floor: FloorAnswer }) {
  const [bay, showBay] = useState<string>();
  const [only, showOnly] = useState<BasinStanding>();
  const [picked, pick] = useState<string>();
  const must = floor.basins.filter((basin) => basin.standing === 'must be seen today').length;
  const planted = floor.basins.filter((basin) => basin.lot !== undefined).length;
  const chosen = floor.basins.find((basin) => basin.basin === picked);
  return (
    <>
      <h1>Floor</h1>
      <p>{count(floor.basins.length, 'basin')} stand on the floor, {planted} with plants; {must} must be seen today. {count(floor.freeBerths.length, 'berth is', 'berths are')} free.</p>
      <div className="floor-tools">
        <div className="choices" role="group" aria-label="Part of the floor">
          <button type="button" aria-pressed={bay === undefined} onClick={() => showBay(undefined)}>Whole floor</button>
          {floor.bays.map((is) => <button key={is.id} type="button" aria-pressed={bay === is.id} onClick={() => showBay(is.id)}>{is.title}</button>)}
        </div>
        <BasinFinder floor={floor} pick={pick} />
      </div>
      <FloorKey basins={floor.basins} only={only} showOnly={showOnly} />
      {chosen && <BasinPick basin={chosen} close={() => pick(undefined)} />}
      <FloorMap floor={floor} bay={bay} only={only} picked={picked} pick={pick} />
    </>
  );
}
