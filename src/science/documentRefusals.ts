import { REFUSAL_CODES } from './refusalCodes.ts';

/** docs/refusals.md: every refusal code, what it means and what to do. Made from the one table of codes. */
export function documentRefusals(): string {
  const rows = Object.entries(REFUSAL_CODES).map(([code, { meaning, remedy }]) => `| \`${code}\` | ${meaning} | ${remedy} |`);
  return `# Refusals\n\nMade from the table of codes; do not edit. A refusal changes nothing. Each one names its place, what was found and what is allowed.\n\n| code | meaning | what to do |\n|---|---|---|\n${rows.join('\n')}\n`;
}
