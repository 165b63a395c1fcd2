import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { documentParameters } from '../../src/greenhouse/files/documentParameters.ts';
import { publishedSchemas } from '../../src/greenhouse/files/publishedSchemas.ts';
import { documentRefusals } from '../../src/science/documentRefusals.ts';
import { REFUSAL_CODES } from '../../src/science/refusalCodes.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
/** UPDATE=1 npx vitest run test/greenhouse/generatedPages.test.ts writes them anew; the difference is the review. */
const update = process.env.UPDATE === '1';

function expectFile(path: string, text: string): void {
  if (update) { mkdirSync(dirname(`${root}${path}`), { recursive: true }); writeFileSync(`${root}${path}`, text); }
  expect(existsSync(`${root}${path}`) ? readFileSync(`${root}${path}`, 'utf8') : '', `${path} is up to date`).toBe(text);
}

describe('files that are made from the schemas', () => {
  const schemas = publishedSchemas();
  it.each(Object.keys(schemas))('schemas/%s is the published form of the schema that checks', (name) => {
    expectFile(`schemas/${name}`, `${JSON.stringify(schemas[name], undefined, 1)}\n`);
  });

  it('docs/parameters.md lists every number of every file with unit, allowed range and meaning', () => {
    const text = documentParameters();
    expectFile('docs/parameters.md', text);
    for (const line of text.split('\n').filter((each) => / to -?\d/.test(each) && each.startsWith('| `'))) expect(line.split(' | ')[1], line).not.toBe('');
  });

  it('docs/refusals.md, the table of codes and the codes used in the program are the same', () => {
    expectFile('docs/refusals.md', documentRefusals());
    for (const code of Object.keys(REFUSAL_CODES)) expect(mentioned(code), `${code} is used`).toBe(true);
  });
});

const mentioned = (code: string) => sourceFiles(`${root}src`).filter((path) => !path.endsWith('refusalCodes.ts')).some((path) => readFileSync(path, 'utf8').includes(`'${code}'`));

const sourceFiles = (folder: string): string[] => readdirSync(folder, { withFileTypes: true, recursive: true })
  .filter((entry) => entry.isFile() && entry.name.endsWith('.ts') && !entry.name.endsWith('.test.ts'))
  .map((entry) => `${entry.parentPath}/${entry.name}`);
