import type { PlantMark, ScanAnswer, ScannedPlant } from '../../desk/contract.ts';
import { Sign, Status } from '../parts/Sign.tsx';
import { useNameOf } from '../shell/WhoAmI.tsx';
import { percent } from '../words/figures.ts';
import { dateTime } from '../words/times.ts';
import { PlantHistoryFigure } from './PlantHistoryFigure.tsx';
import { measureRows, plantKey, plantName, REASON_WORDS } from './plantWords.ts';
import { choiceOf } from './scoreChoices.ts';
import { ScoreForm } from './ScoreForm.tsx';
import type { Scoring } from './useScoring.ts';

interface Props {
  readonly scan: ScanAnswer;
  readonly plant: ScannedPlant | undefined;
  readonly scoring: Scoring;
  readonly zone: string;
  readonly send: (mark: PlantMark) => void;
}

/** The picked plant: why to look at it, its judgement, its measures, what became of it over the scans. */
export function PlantPanel({ scan, plant, scoring, zone, send }: Props) {
  if (plant === undefined) return <section className="plant-panel" aria-label="Picked plant"><h2>No plant is picked</h2><p>Press a plant on the picture, walk there with the arrow keys, or take one from the list of plants to look at.</p></section>;
  return (
    <section className="plant-panel" aria-label="Picked plant">
      <h2>{title(plant)}</h2>
      {plant.reasons.map(({ reason, sentence }) => <p key={reason}><Status shape="diamond">{REASON_WORDS[reason]}</Status> {sentence}</p>)}
      <ScoreWords plant={plant} zone={zone} />
      {plant.measures && <Proposal scan={scan} plant={plant} barred={scoring.barred !== undefined} send={send} />}
      <ScoreForm key={plantKey(plant)} plant={plant} scoring={scoring} send={send} />
      {plant.measures === undefined ? <p>Nothing grows at this position.</p> : (
        <table className="measures">
          <caption className="only-read">Measures of {plantName(plant)}</caption>
          <tbody>{measureRows(plant.measures).map(({ name, value, note, sample }) => <tr key={name}><th scope="row">{name}{note && <span className="soft small">{note}</span>}</th><td className="number">{sample && <svg className="leaf-colour" viewBox="0 0 20 20" width="16" height="16" aria-hidden="true"><rect width="20" height="20" fill={`rgb(${sample.join(' ')})`} stroke="currentColor" /></svg>}{value}</td></tr>)}</tbody>
        </table>
      )}
      <PlantHistoryFigure plant={plant} zone={zone} />
      {plant.measures && <p className="soft small">{scan.massWords}</p>}
    </section>
  );
}

const title = (plant: ScannedPlant): string => plantName(plant).replace('r', 'R');

function ScoreWords({ plant: { score }, zone }: { readonly plant: ScannedPlant; readonly zone: string }) {
  const nameOf = useNameOf();
  if (score === undefined) return null;
  const said = score.class === 'own' ? `“${score.words ?? ''}”` : choiceOf(score.class)?.word.toLowerCase() ?? score.class;
  return <p className="score-words"><Sign shape="tick" /> <b>{said}</b>{score.class !== 'own' && score.words ? `, “${score.words}”` : ''} <span className="soft small">{nameOf(score.by)}, {dateTime(score.at, zone)}{score.wholeRaft ? ', of the whole raft' : ''}</span></p>;
}

/** What the classifier would say; it becomes a score only when a person takes it. */
function Proposal({ scan, plant, barred, send }: { readonly scan: ScanAnswer; readonly plant: ScannedPlant; readonly barred: boolean; readonly send: (mark: PlantMark) => void }) {
  const choice = choiceOf(plant.proposed?.class);
  if (choice === undefined || plant.proposed === undefined || plant.score !== undefined) return null;
  const trust = scan.classifier.ready ? `On plants it had not seen it was right ${percent(scan.classifier.rightShare)} of the time; always saying the commonest class would be right ${percent(scan.classifier.commonestShare)}.` : scan.classifier.sentence;
  return (
    <div className="proposed">
      <p><Status shape="half">Proposed: {choice.word.toLowerCase()}</Status> with {percent(plant.proposed.confidence)} confidence. <span className="soft small">{trust}</span></p>
      {!barred && choice.class !== 'own' && <button type="button" onClick={() => send({ raft: plant.raft, position: plant.position, class: choice.class })}>Agree: {choice.word.toLowerCase()}</button>}
    </div>
  );
}
