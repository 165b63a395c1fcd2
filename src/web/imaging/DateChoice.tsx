import { useId } from 'react';
import type { BasinScansAnswer, ScanAnswer } from '../../desk/contract.ts';
import { dateTime } from '../words/times.ts';

export type Comparing = 'change' | 'beside';
interface Props {
  readonly scans: BasinScansAnswer['scans'];
  readonly scan: ScanAnswer;
  readonly zone: string;
  readonly go: (scan: string) => void;
  readonly against: string | undefined;
  readonly compare: (scan: string | undefined) => void;
  readonly comparing: Comparing;
  readonly setComparing: (how: Comparing) => void;
}

/** Which scan is shown, and which one it is held against. */
export function DateChoice({ scans, scan, zone, go, against, compare, comparing, setComparing }: Props) {
  const [one, other] = [useId(), useId()];
  return (
    <div className="date-choice no-print">
      <div><label htmlFor={one}>Scan of</label><select id={one} value={scan.summary.scan} onChange={(event) => go(event.target.value)}>{scans.map((is) => <option key={is.scan} value={is.scan}>{dateTime(is.takenAt, zone)}</option>)}</select></div>
      <div>
        <label htmlFor={other}>Compared with</label>
        <select id={other} value={against ?? ''} disabled={scan.others.length === 0} onChange={(event) => compare(event.target.value === '' ? undefined : event.target.value)}>
          <option value="">{scan.others.length === 0 ? 'no other scan of these plants' : 'no other'}</option>
          {scan.others.map((is) => <option key={is.scan} value={is.scan}>{dateTime(is.takenAt, zone)}{is.comparable ? '' : ' (measured in another way)'}</option>)}
        </select>
      </div>
      {against !== undefined && (
        <div className="joined" role="group" aria-label="How to compare">
          <button type="button" aria-pressed={comparing === 'change'} onClick={() => setComparing('change')}>Change of height</button>
          <button type="button" aria-pressed={comparing === 'beside'} onClick={() => setComparing('beside')}>Both dates</button>
        </div>
      )}
    </div>
  );
}
