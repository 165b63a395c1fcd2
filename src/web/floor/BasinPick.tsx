import { Link } from '@tanstack/react-router';
import type { FloorBasin } from '../../desk/contract.ts';
import { useTitleOf } from '../ask/useTitleOf.ts';
import { asSentence } from '../words/figures.ts';
import { KIND_WORDS, URGENCY_WORDS } from '../words/kinds.ts';
import { shortDate } from '../words/times.ts';

/** The picked basin in words. */
export function BasinPick({ basin, close }: { readonly basin: FloorBasin; readonly close: () => void }) {
  const titleOf = useTitleOf();
  return (
    <section className="basin-pick" role="status" aria-label={`Basin ${basin.basin}`}>
      <p className="pick-name">{basin.basin}</p>
      <p>
        <b>{asSentence(basin.standing)}</b> Berth {basin.berth}. {basin.crop ? `${titleOf(basin.crop)}, stage ${basin.stage}, lot ${basin.lot}.` : 'Nothing grows in it.'}
        {basin.readyDate && ` Ready ${shortDate(basin.readyDate)}.`} {needWords(basin)}
      </p>
      <div className="stop-buttons">
        <Link to="/basin/$id" params={{ id: basin.basin }} className="button">Open basin {basin.basin}</Link>
        <button type="button" onClick={close}>Close</button>
      </div>
    </section>
  );
}

function needWords(basin: FloorBasin): string {
  const needs = basin.needs.map((need) => `${KIND_WORDS[need.kind].work.toLowerCase()} (${URGENCY_WORDS[need.urgency]})`);
  const words = needs.length === 0 ? 'No station needs to see it.' : `Needs ${needs.join(', ')}.`;
  return basin.visitsToday.length > 0 ? `${words} It travels today.` : words;
}
