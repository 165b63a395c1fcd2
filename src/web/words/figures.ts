/** Numbers as a person reads them: a fixed number of figures, a narrow space before the unit. */
const THIN = '\u202f';

/** A number with at most `figures` significant figures, never in powers of ten. */
export function plain(value: number, figures = 3): string {
  if (!Number.isFinite(value)) return 'not known';
  if (value === 0) return '0';
  const decimals = Math.max(0, Math.min(6, figures - 1 - Math.floor(Math.log10(Math.abs(value)))));
  return group(value.toFixed(decimals));
}

/** A number as it is, without zeros that say nothing: counts of things, marks on an axis. */
export const bare = (value: number): string => (Number.isFinite(value) ? group(String(Number(value.toPrecision(6)))) : 'not known');

/** A number with a fixed count of decimals, so that columns line up. */
export const fixed = (value: number, decimals: number): string => (Number.isFinite(value) ? group(value.toFixed(decimals)) : 'not known');

export const withUnit = (number: string, unit: string): string => `${number}${THIN}${unit}`;
export const litres = (value: number): string => withUnit(fixed(value, value < 10 ? 2 : 1), 'L');
export const grams = (value: number): string => withUnit(fixed(value, value < 100 ? 1 : 0), 'g');
export const percent = (share: number): string => withUnit(fixed(share * 100, 0), '%');

/** A chance in words that claim no more than is known: 0.996 is not "100 %". */
export function chance(share: number): string {
  if (share >= 0.995) return withUnit('over 99', '%');
  if (share < 0.005) return withUnit('under 1', '%');
  return percent(share);
}

export const count = (number: number, one: string, many = `${one}s`): string => `${group(String(number))}\u00a0${number === 1 ? one : many}`;

function group(digits: string): string {
  const [whole = '', part] = digits.split('.');
  const spaced = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+(?!\d))/g, THIN) : whole;
  return part === undefined ? spaced : `${spaced}.${part}`;
}

/** Words as a sentence: a capital at its start, one stop at its end. */
export const asSentence = (words: string): string => (words === '' ? '' : `${words[0]!.toUpperCase()}${words.slice(1).replace(/[.;,\s]+$/, '')}.`);

/** What an order counts, in the number that fits: "1 bunch", "6 bunches", "2 kg" give bunch, bunches, kg. */
export function unitWord(unit: string, number: number): string {
  if (unit === 'kg' || number === 1) return unit;
  return /(s|x|ch|sh)$/.test(unit) ? `${unit}es` : `${unit}s`;
}
