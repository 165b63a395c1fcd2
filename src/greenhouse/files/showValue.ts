const LONGEST = 60;

/** A found value as people read it in a message, at most 60 characters. */
export function showValue(value: unknown): string {
  const text = typeof value === 'string' ? `'${value}'` : typeof value === 'number' || value === undefined ? String(value) : jsonOf(value);
  const plain = text.replaceAll(/\p{Cc}|\p{Surrogate}/gu, '\u{FFFD}');
  return plain.length > LONGEST ? `${plain.slice(0, LONGEST - 3).replace(/\p{Surrogate}$/u, '')}...` : plain;
}

/** The same for a refusal's `value`: numbers, true, false and null stay themselves; what JSON cannot say is written out. */
export function plainValue(value: unknown): unknown {
  const stays = value === null || typeof value === 'boolean' || (typeof value === 'number' && Number.isFinite(value));
  return stays ? value : showValue(value);
}

function jsonOf(value: unknown): string {
  try {
    return JSON.stringify(value) ?? String(value);
  } catch {
    return 'a value that refers to itself';
  }
}
