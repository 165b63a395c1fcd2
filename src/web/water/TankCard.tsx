import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { TankView, WaterAnswer } from '../../desk/contract.ts';
import { Status } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { asSentence, fixed, percent, plain, withUnit } from '../words/figures.ts';
import { dateTime } from '../words/times.ts';
import { mainParts } from './mainParts.ts';
import { printedUnits } from './printedUnits.ts';
import { TankContents } from './TankContents.tsx';
import { TankGauge } from './TankGauge.tsx';
import { tankStanding } from './tankStanding.ts';

interface Props { readonly tank: TankView; readonly water: WaterAnswer; readonly zone: string }

/** One tank: its level drawn and in words, what it mainly holds, since when that is known, and all of it on request. */
export function TankCard({ tank, water, zone }: Props) {
  const [open, setOpen] = useState(false);
  const standing = tankStanding(tank, water.date);
  const isMadeHere = tank.kind !== 'fresh' && tank.kind !== 'return';
  return (
    <li className={`tank${open ? ' open' : ''}`} aria-label={tank.title}>
      <TankGauge tank={tank} />
      <div className="tank-words">
        <p className="tank-name"><b>{tank.title}</b> <Status shape={standing.shape}>{standing.words}</Status></p>
        <p className="tank-volume"><b className="figures">{volume(tank.volumeL)}</b> <span className="soft">of {volume(tank.capacityL)}, {percent(tank.volumeL / tank.capacityL)}{tank.volumeSdL === undefined ? '' : `, ± ${volume(tank.volumeSdL)}`}</span></p>
        {tank.drawnTodayL + tank.putInTodayL > 0 && <p className="small">Today {volume(tank.drawnTodayL)} drawn{tank.putInTodayL > 0 ? `, ${volume(tank.putInTodayL)} put in` : ''}; {volume(Math.max(0, tank.volumeL - tank.drawnTodayL + tank.putInTodayL))} in it tonight</p>}
        {tank.reason !== undefined && <p className="small">{tank.reason}</p>}
        {tank.mmolPerL && <p className="small soft">{figures(tank)}{mainParts(tank.mmolPerL, water.components)}</p>}
        {tank.treatment && <p className="small soft">Treated: {printedUnits(tank.treatment.words.split(' at ')[0]!)}.</p>}
        <p className="small soft">{knownFrom(tank, zone)}&nbsp;<Why source={tank.why} of={`what is in ${tank.title}`} /></p>
        {tank.flags.map((flag) => <p key={flag.at + flag.sentence} className="small"><Status shape="diamond">{dateTime(flag.at, zone)}</Status> {flag.sentence} Likeliest: {flag.likelyCause}</p>)}
        <p className="tank-buttons no-print">
          <button type="button" className="toggle quiet" aria-expanded={open} aria-label={`What is in it: ${tank.title}`} onClick={() => setOpen(!open)}>{open ? 'Close' : 'What is in it'}</button>
          {isMadeHere && <Link to="/water/sheets" search={{ tank: tank.source }} className="quiet" aria-label={`Mixing sheet of ${tank.title}`}>Mixing sheet</Link>}
        </p>
      </div>
      {open && <TankContents tank={tank} water={water} zone={zone} />}
    </li>
  );
}

/** Since when the contents are counted, or on what they rest where nothing was counted. */
function knownFrom({ since, basis, kind }: TankView, zone: string): string {
  if (since !== undefined) return `Counted since ${dateTime(since, zone)}`;
  return asSentence(kind === 'fresh' || kind === 'return' ? basis : `made up as greenhouse.yaml says; ${basis.split('; ').at(-1)}`);
}

const volume = (litres: number): string => withUnit(litres < 10 ? plain(litres, 2) : fixed(litres, 0), 'L');

function figures({ ecMsPerCm25, pH }: TankView): string {
  const parts = [...(ecMsPerCm25 === undefined ? [] : [`EC ${withUnit(fixed(ecMsPerCm25, 2), 'mS/cm')}`]), ...(pH === undefined ? [] : [`pH ${fixed(pH.value, 1)}`])];
  return parts.length === 0 ? '' : `${parts.join(', ')}. `;
}
