import { clockTime } from '../words/times.ts';

interface Props { readonly startAt: string; readonly lengthS: number; readonly zone: string; readonly hour: number | undefined; readonly show: (fromS: number | undefined) => void }

/** Shows the whole day or one hour of it; `hour` is the second at which that hour begins. */
export function HourChoice({ startAt, lengthS, zone, hour, show }: Props) {
  const hours = Array.from({ length: Math.ceil(lengthS / 3600) }, (_, number) => number * 3600);
  return (
    <div className="choices hour-choice no-print" role="group" aria-label="How much of the day">
      <button type="button" aria-pressed={hour === undefined} onClick={() => show(undefined)}>Whole day</button>
      {hours.map((fromS) => <button key={fromS} type="button" aria-pressed={hour === fromS} aria-label={`The hour from ${hourWords(startAt, fromS, zone)}`} onClick={() => show(fromS)}>{hourWords(startAt, fromS, zone)}</button>)}
    </div>
  );
}

const hourWords = (startAt: string, fromS: number, zone: string): string => clockTime(new Date(Date.parse(startAt) + fromS * 1000).toISOString(), zone);
