import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { CropCardAnswer } from '../../desk/contract.ts';
import { cardQuestion } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { Section } from '../parts/Section.tsx';
import './crop.css';

/** One crop card: every value with unit, allowed range, meaning and source. */
export function CardPage() {
  const { id } = useParams({ from: '/card/$id' });
  const query = useQuery(cardQuestion(id));
  return (
    <>
      <p className="small no-print"><Link to="/crop">Crop</Link></p>
      <Asked query={query} what={`the crop card ${id}`}>{(card) => <Card card={card} />}</Asked>
    </>
  );
}

function Card({ card }: { readonly card: CropCardAnswer }) {
  return (
    <>
      <h1>{card.title}</h1>
      <p className="sentence">{card.cultivar}. Values of the file crops/{card.id}.yaml and of its growth model, with what each may be and where it comes from.</p>
      <nav className="cards no-print" aria-label="Other crop cards">{card.others.map(({ id, title }) => <Link key={id} to="/card/$id" params={{ id }}>{title}</Link>)}</nav>
      {card.parts.map(({ title, rows }) => (
        <Section key={title} title={title}>
          <table className="card-table">
            <thead><tr><th scope="col">Value</th><th scope="col" className="number">Is</th><th scope="col">Allowed</th><th scope="col">Meaning</th><th scope="col">Source</th></tr></thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.name}>
                  <th scope="row">{row.name}</th>
                  <td className={/^[-\d.]/.test(row.value) ? 'number' : 'card-words'}>{row.value}{row.unit !== '' && row.unit !== '1' ? `\u202f${row.unit}` : ''}</td>
                  <td className="card-range">{row.range}</td>
                  <td>{row.meaning}</td>
                  <td className="soft">{row.source}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Section>
      ))}
    </>
  );
}
