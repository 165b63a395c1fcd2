import type { BasinScansAnswer } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { dateTime } from '../words/times.ts';

/** Clouds of this basin that were not taken, each with every reason. */
export function RefusedClouds({ refused, zone }: { readonly refused: BasinScansAnswer['refused']; readonly zone: string }) {
  if (refused.length === 0) return null;
  return (
    <Section title="Clouds that were not taken" aside="nothing of them was stored">
      <ul className="refused-clouds">
        {refused.map((cloud) => (
          <li key={cloud.scan}>
            <Status shape="cross">refused</Status>
            <div><p><b>{cloud.file}</b>{cloud.takenAt && <span className="soft"> taken {dateTime(cloud.takenAt, zone)}</span>}</p><ul>{cloud.refusals.map((is) => <li key={is.path + is.message}>{is.message}</li>)}</ul></div>
          </li>
        ))}
      </ul>
    </Section>
  );
}
