import type { Balance } from './balanceOf.ts';
import { amountWords } from './amounts.ts';
import { layBalance, type BalanceFrame, type LaidBand } from './layBalance.ts';

const DESK: BalanceFrame = { width: 1120, gutter: 230, trunk: 150, most: 300, slot: 44, top: 10 };
const PHONE: BalanceFrame = { width: 358, gutter: 118, trunk: 34, most: 230, slot: 58, top: 10 };

/** The bands of a balance, drawn. */
export function BalanceDrawing({ balance, what, narrow }: { readonly balance: Balance; readonly what: string; readonly narrow: boolean }) {
  const laid = layBalance(balance, narrow ? PHONE : DESK);
  if (laid === undefined) return <p>Nothing of it moved.</p>;
  const { trunk } = laid;
  return (
    <svg className="balance-drawing" viewBox={`0 0 ${laid.width} ${laid.height}`} role="img" aria-label={`Balance of ${what}: ${laid.bands.map((band) => `${band.key.startsWith('in ') ? 'in, ' : 'out, '}${band.title} ${amountWords(band.amount, balance.amountKind)}`).join('; ')}`}>
      <defs>
        <pattern id="slope" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="7" height="7" className="pattern-ground" /><line x1="0" x2="0" y1="0" y2="7" className="pattern-line" /></pattern>
        <pattern id="cross" width="7" height="7" patternUnits="userSpaceOnUse"><rect width="7" height="7" className="pattern-ground" /><path d="M0 0l7 7M7 0l-7 7" className="pattern-line" /></pattern>
      </defs>
      {laid.bands.map((band) => <path key={band.key} d={band.path} className={`band ${band.kind}`} />)}
      <rect x={trunk.x} y={trunk.y} width={trunk.width} height={trunk.height} className="trunk" />
      {!narrow && <text x={trunk.x + trunk.width / 2} y={trunk.y + trunk.height / 2 + 5} textAnchor="middle" className="trunk-name">basins</text>}
      {laid.bands.map((band) => <BandEnd key={band.key} band={band} amount={amountWords(band.amount, balance.amountKind)} narrow={narrow} />)}
    </svg>
  );
}

function BandEnd({ band, amount, narrow }: { readonly band: LaidBand; readonly amount: string; readonly narrow: boolean }) {
  const { x, y, anchor } = band.label;
  const lines = narrow ? breakWords(band.title, 14) : breakWords(band.title, 32);
  const top = y - (lines.length * 15) / 2;
  return (
    <g>
      <rect x={band.bar.x} y={band.bar.y} width="7" height={band.bar.height} className="bar" />
      {lines.map((line, number) => <text key={line} x={x} y={top + 15 * number + 4} textAnchor={anchor}>{line}</text>)}
      <text x={x} y={top + 15 * lines.length + 5} textAnchor={anchor} className="amount">{amount}</text>
    </g>
  );
}

/** Words in lines of at most so many letters; a longer word stands alone. */
function breakWords(words: string, most: number): string[] {
  const lines = [''];
  for (const word of words.split(' ')) {
    const line = lines.at(-1)!;
    if (line !== '' && line.length + 1 + word.length > most) lines.push(word);
    else lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
  }
  return lines;
}
