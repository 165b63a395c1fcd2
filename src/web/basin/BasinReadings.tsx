import type { ReadingRange } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { bare } from '../words/figures.ts';
import { dateTime } from '../words/times.ts';
import { sparkPath } from './sparkPath.ts';

/** What instruments said of this basin over the last days. */
export function BasinReadings({ readings, zone }: { readonly readings: readonly ReadingRange[]; readonly zone: string }) {
  return (
    <Section title="Readings" aside="of the last ten days, as the instruments gave them">
      {readings.length === 0 ? <p>No instrument has read this basin in the last ten days.</p> : (
        <ul className="readings">
          {readings.map((range) => (
            <li key={range.quantity}>
              <p><b>{range.title}</b> <span className="figures">{bare(range.last)} {range.unit}</span><br /><span className="soft small">{dateTime(range.lastAt, zone)}; {range.count} readings from {bare(range.least)} to {bare(range.most)}</span></p>
              <svg viewBox="0 0 240 44" role="img" aria-label={`${range.title} over the last ten days, from ${bare(range.least)} to ${bare(range.most)} ${range.unit}`}><path d={sparkPath(range, 240, 44)} /></svg>
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}
