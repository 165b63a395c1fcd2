import type { ScannedPlant } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { Sign } from '../parts/Sign.tsx';
import { count } from '../words/figures.ts';
import { REASON_WORDS } from './plantWords.ts';
import { choiceOf } from './scoreChoices.ts';

interface Props { readonly plants: readonly ScannedPlant[]; readonly picked: number | undefined; readonly pick: (plant: number) => void }

/** Plants that stand out, each with the reason; pressing one picks it on the picture. */
export function ToLookAt({ plants, picked, pick }: Props) {
  const listed = plants.flatMap((plant, index) => (plant.reasons.length > 0 ? [{ plant, index }] : []));
  const open = listed.filter(({ plant }) => plant.score === undefined).length;
  return (
    <Section className="to-look-at" title="To look at" aside={listed.length === 0 ? undefined : `${count(listed.length, 'plant')}, ${open} not scored; N and B go through them`}>
      {listed.length === 0 && <p>No plant stands out from its fellows, its last scan or the forecast.</p>}
      <ol className="look-at">
        {listed.map(({ plant, index }) => (
          <li key={index}>
            <button type="button" aria-pressed={picked === index} onClick={() => pick(index)}>
              <Sign shape={plant.score ? 'tick' : 'diamond'} />
              <span><b>Raft {plant.raft}, {plant.position}</b> {plant.reasons.map(({ reason }) => REASON_WORDS[reason]).join(', ')}{plant.score && <>; scored {choiceOf(plant.score.class)?.word.toLowerCase()}</>}</span>
            </button>
          </li>
        ))}
      </ol>
    </Section>
  );
}
