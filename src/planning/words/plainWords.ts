/** Numbers and counts as they stand in sentences. */

/** "1 head", "12 heads", "3.5 kg". */
export function countOf(count: number, unit: string): string {
  const shown = Number.isInteger(count) ? String(count) : count.toFixed(1);
  if (unit === 'kg') return `${shown} kg`;
  return `${shown} ${count === 1 ? unit : pluralOf(unit)}`;
}

const PLURALS: Readonly<Record<string, string>> = { batch: 'batches', bunch: 'bunches' };

export const pluralOf = (word: string): string => PLURALS[word] ?? `${word}s`;

/** At most so many decimals, without trailing zeros. */
export const shown = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));

/** "a, b and c". */
export function listOf(words: readonly string[]): string {
  return words.length <= 1 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** "B001, B002, B003 and 14 more". */
export const someOf = (words: readonly string[], most = 4): string => (words.length <= most ? listOf(words) : `${words.slice(0, most).join(', ')} and ${words.length - most} more`);
