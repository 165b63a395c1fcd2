/** One text for equal plain JSON values: keys sorted, absent values left out. */
export function canonicalText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((each) => canonicalText(each ?? null)).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const entries = Object.entries(value).filter(([, each]) => each !== undefined).sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${entries.map(([key, each]) => `${JSON.stringify(key)}:${canonicalText(each)}`).join(',')}}`;
}
