import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { LotLine, LotsAnswer } from '../../desk/contract.ts';
import { lotsQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { Folds } from '../parts/Folds.tsx';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { count } from '../words/figures.ts';
import { shortDate } from '../words/times.ts';
import { LotLink } from './LotLink.tsx';
import { SeasonFigures } from './SeasonFigures.tsx';
import '../basin/basin.css';
import './crop.css';

/** The crop as a whole: what is off target, what to look at next, every lot, the season, the crop cards. */
export function CropPage() {
  const query = useQuery(lotsQuestion);
  return <Asked query={query} what="the lots">{(answer) => <Crop answer={answer} />}</Asked>;
}

function Crop({ answer }: { readonly answer: LotsAnswer }) {
  const off = answer.lots.filter(({ offTarget }) => offTarget !== undefined);
  return (
    <>
      <h1>Crop</h1>
      <p className="sentence">{answer.sentence ?? 'No plan has been computed yet.'}</p>
      <Section title="Off target" aside={<>what is expected to help most; you decide <Why source="actions" of="what could be done about lots off target" /></>}>
        {off.length === 0 && <p>Every lot does what its orders need.</p>}
        <ul className="lots-off">{off.map((lot) => <li key={lot.lot}><LotLink lot={lot.lot} /><p>{afterColon(lot.offTarget!)}{lot.decided !== undefined && <> Decided: {lot.decided}.</>}</p></li>)}</ul>
        {answer.bayLights.map((sentence) => <p key={sentence}>{sentence}</p>)}
        {answer.notWorkedOut.length > 0 && <p className="soft">Off target too, with less at stake and not worked out: {answer.notWorkedOut.map(({ lot }) => lot).join(', ')}.</p>}
      </Section>
      <Section title="What to look at next" aside="what knowing more is worth before deciding, the most first">
        {answer.looks.length === 0 ? <p>No sample or scan would change a decision by more than it costs.</p> : <ol className="looks">{answer.looks.map((look) => <li key={`${look.lot} ${look.look}`}>{look.sentence}</li>)}</ol>}
      </Section>
      <Section title="Light and temperature" aside="past days measured as far as there are readings; days ahead on the outlook weather"><SeasonFigures bays={answer.season} date={answer.date} /></Section>
      <Section title="Lots"><Folds groups={lotGroups(answer.lots)} many="crops">{(lots) => <ul className="lots">{lots.map((lot) => <LotRow key={lot.lot} lot={lot} />)}</ul>}</Folds></Section>
      <Section title="Crop cards" aside="every value with its range and source"><ul className="cards">{answer.cards.map(({ id, title }) => <li key={id}><Link to="/card/$id" params={{ id }}>{title}</Link></li>)}</ul></Section>
    </>
  );
}

/** The lot's name stands before the sentence as a link already. */
const afterColon = (sentence: string): string => {
  const words = sentence.slice(sentence.indexOf(': ') + 2);
  return `${words[0]!.toUpperCase()}${words.slice(1)}`;
};

function lotGroups(lots: readonly LotLine[]) {
  const crops = [...new Set(lots.map(({ crop }) => crop))];
  return crops.map((crop) => {
    const items = lots.filter((lot) => lot.crop === crop);
    return { key: crop, title: items[0]!.cropTitle, note: count(items.length, 'lot'), items, open: false };
  });
}

function LotRow({ lot }: { readonly lot: LotLine }) {
  return (
    <li className="lot">
      <p><LotLink lot={lot.lot} /></p>
      <p>{lot.stageTitle}, {count(lot.plants, 'plant')} in {count(lot.basins, 'basin')}</p>
      <p>{lot.readyDate === undefined ? 'no ready date yet' : `ready ${shortDate(lot.readyDate.likely)}`}</p>
      <p>{lot.offTarget === undefined ? '' : <Status shape="diamond">off target</Status>}</p>
    </li>
  );
}
