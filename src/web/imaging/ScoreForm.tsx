import { useEffect, useId, useRef, useState, type FormEvent } from 'react';
import type { PlantMark, ScannedPlant } from '../../desk/contract.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { plantName } from './plantWords.ts';
import { SCORE_CHOICES, type ScoreChoice } from './scoreChoices.ts';
import type { Scoring } from './useScoring.ts';

interface Props { readonly plant: ScannedPlant; readonly scoring: Scoring; readonly send: (mark: PlantMark) => void }

/** One press scores the plant, or its whole raft; own words take a line. Each button shows the key that does the same. */
export function ScoreForm({ plant, scoring: { score, barred }, send }: Props) {
  const [wholeRaft, choose] = useState(false);
  const scoped = (mark: Pick<PlantMark, 'class' | 'words'>): PlantMark => ({ raft: plant.raft, ...(wholeRaft ? {} : { position: plant.position }), ...mark });
  const [own, openOwn] = useState(false);
  return (
    <div className="score-form" role="group" aria-label={`Score ${wholeRaft ? `raft ${plant.raft}` : plantName(plant)}`}>
      <div className="scope" role="group" aria-label="What is scored">
        <button type="button" aria-pressed={!wholeRaft} onClick={() => choose(false)}>This plant</button>
        <button type="button" aria-pressed={wholeRaft} onClick={() => choose(true)}>Whole raft {plant.raft}</button>
      </div>
      <div className="score-buttons">
        {SCORE_CHOICES.filter((choice) => choice.class !== 'own').map((choice) => (
          <button key={choice.class} type="button" title={choice.meaning} disabled={barred !== undefined || score.isPending} aria-pressed={plant.score?.class === choice.class} onClick={() => send(scoped({ class: choice.class }))}>
            <Letter choice={choice} />{choice.word}
          </button>
        ))}
        <button type="button" className="own-words-button toggle" aria-expanded={own} disabled={barred !== undefined} onClick={() => openOwn(!own)}><kbd aria-hidden="true">O</kbd>Own words</button>
        {plant.score && <button type="button" disabled={barred !== undefined || score.isPending} onClick={() => send(scoped({ class: 'unscored' }))}><kbd aria-hidden="true">U</kbd>Take back</button>}
      </div>
      {own && <OwnWords barred={barred !== undefined || score.isPending} send={(words) => { send(scoped({ class: 'own', words })); openOwn(false); }} />}
      {barred && <p role="status">{barred}</p>}
      {wholeRaft && <p className="soft small">Plants of this raft that have a score of their own keep it.</p>}
      {score.error && <Trouble error={score.error} />}
    </div>
  );
}

const Letter = ({ choice }: { readonly choice: ScoreChoice }) => <kbd aria-hidden="true">{choice.letter}</kbd>;

function OwnWords({ barred, send }: { readonly barred: boolean; readonly send: (words: string) => void }) {
  const id = useId();
  const line = useRef<HTMLInputElement>(null);
  useEffect(() => line.current?.focus(), []);
  const take = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault();
    const words = String(new FormData(event.currentTarget).get('words') ?? '').trim();
    if (words !== '') send(words);
  };
  return (
    <form className="own-words" onSubmit={take}>
      <label htmlFor={id}>In own words</label>
      <input id={id} name="words" required minLength={2} maxLength={200} autoComplete="off" disabled={barred} ref={line} />
      <button type="submit" disabled={barred}>Score so</button>
    </form>
  );
}
