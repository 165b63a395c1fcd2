import { GROWTH_MODELS } from '../../science/crop/growthModels.ts';
import { FILE_SCHEMAS } from './publishedSchemas.ts';
import { jsonSchemaOf, type SchemaNode } from './schemaAt.ts';

/** docs/parameters.md: every value that a file may hold, with unit, range, default, meaning and source. Made from the schemas. */
export function documentParameters(): string {
  const files = Object.values(FILE_SCHEMAS).map(({ file, schema, isRow }) => `## ${file}\n${isRow ? 'Columns of the table.\n' : ''}\n${table(rowsOf(jsonSchemaOf(schema), ''))}`);
  const models = Object.entries(GROWTH_MODELS).map(([id, { parameters }]) => `## Growth model ${id}\nA crop card sets one of these as \`growth.parameters.SYMBOL: { value, source }\`.\n\n${table(parameters.map((is) => ({ path: is.symbol, unit: is.unit, range: `${is.min} to ${is.max}`, fallback: String(is.default), meaning: `${is.name}. ${is.meaning}`, source: is.source })))}`);
  return `# Parameters\n\nMade from the schemas that check the files; do not edit. Units are UCUM codes; 1 is a plain number or share.\n\n${[...files, ...models].join('\n\n')}\n`;
}

interface Row { readonly path: string; readonly unit: string; readonly range: string; readonly fallback: string; readonly meaning: string; readonly source: string }

function table(rows: readonly Row[]): string {
  const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('\n', ' ');
  const lines = rows.map((row) => `| ${[`\`${row.path}\``, row.unit, row.range, row.fallback, row.meaning, row.source].map(cell).join(' | ')} |`);
  return `| parameter | unit | allowed | default | meaning | source |\n|---|---|---|---|---|---|\n${lines.join('\n')}`;
}

type Node = SchemaNode & { readonly default?: unknown; readonly source?: string; readonly pattern?: string; readonly format?: string; readonly minItems?: number };

function rowsOf(node: Node, path: string, required = true): Row[] {
  const items = typeof node.items === 'object' ? node.items as Node : undefined;
  if (node.properties !== undefined) return Object.entries(node.properties).flatMap(([key, child]) => rowsOf(child as Node, path === '' ? key : `${path}.${key}`, node.required?.includes(key) === true));
  if (items?.properties !== undefined) return rowsOf(items, `${path}[]`);
  const named = typeof node.additionalProperties === 'object' ? node.additionalProperties as Node : undefined;
  if (named?.properties !== undefined) return rowsOf(named, `${path}.NAME`);
  return [{
    path, unit: node.unit ?? '', range: rangeOf(node), meaning: node.description ?? '', source: node.source ?? '',
    fallback: node.default === undefined ? (required ? 'required' : 'none') : JSON.stringify(node.default),
  }];
}

function rangeOf(node: Node): string {
  if (node.minimum !== undefined && node.maximum !== undefined) return `${node.minimum} to ${node.maximum}`;
  if (node.enum !== undefined) return node.enum.join(', ');
  const bounds = node.prefixItems?.[0];
  if (bounds !== undefined) return bounds.minimum === undefined ? 'two values' : `two values, ${bounds.minimum} to ${bounds.maximum}`;
  return node.format ?? node.type ?? '';
}
