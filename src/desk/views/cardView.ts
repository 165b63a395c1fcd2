import { jsonSchemaOf, type SchemaNode } from '../../greenhouse/files/schemaAt.ts';
import { cropCard, type CropCard } from '../../greenhouse/schema/cropCard.ts';
import { GROWTH_MODELS } from '../../science/crop/growthModels.ts';
import type { CardRow, CropCardAnswer } from '../contract.ts';

const PARTS: Readonly<Record<string, string>> = { stages: 'Stages', harvest: 'Harvest', growth: 'Growth', water: 'Water', climate: 'Climate', sowing: 'Sowing', handling: 'Handling' };

/** UCUM codes that people write otherwise. */
const UNIT_WORDS: Readonly<Record<string, string>> = { '1': '', '[pH]': '', Cel: '°C', 'Cel.d': '°C d', 'umol/L': 'µmol/L', 'mol/(m2.d)': 'mol/(m² d)', '/m2': '/m²' };

/** Every value of a crop card with unit, allowed range, meaning and source, from the schema that checks the file; then its growth model's. */
export function cardView(card: CropCard): Omit<CropCardAnswer, 'others'> {
  const root = jsonSchemaOf(cropCard);
  const plain = Object.keys(root.properties ?? {}).filter((key) => PARTS[key] === undefined);
  const values = card as unknown as Readonly<Record<string, unknown>>;
  const parts = [
    { title: 'Crop', rows: plain.flatMap((key) => rowsOf(root.properties![key]!, values[key], key)) },
    ...Object.entries(PARTS).map(([key, title]) => ({ title, rows: rowsOf(root.properties![key]!, values[key], '') })),
    { title: `Growth model ${card.growth.model}`, rows: modelRows(card) },
  ];
  return { id: card.id, title: card.title, cultivar: card.cultivar, parts: parts.filter(({ rows }) => rows.length > 0) };
}

/** The values of one part of the card, named by their place in it. */
function rowsOf(node: SchemaNode, value: unknown, path: string): CardRow[] {
  if (value === undefined) return [];
  if (Array.isArray(value) && node.prefixItems === undefined) return value.every((each) => typeof each !== 'object')
    ? [rowOf(node, value.join(', '), path)]
    : value.flatMap((each, i) => rowsOf(node.items as SchemaNode, each, nameOf(each, i)));
  if (Array.isArray(value)) return [rowOf(node, value.join(' to '), path)];
  if (typeof value === 'object' && value !== null) {
    // A table of the card carries one source for all of its values; ids are names of the program, not values.
    const source = 'source' in value && typeof value.source === 'string' ? value.source : undefined;
    return Object.entries(value).filter(([key]) => key !== 'id' && (key !== 'source' || source === undefined))
      .flatMap(([key, each]) => rowsOf(childOf(node, key), each, path === '' ? key : `${path}.${key}`))
      .map((row) => (source === undefined || row.source !== '' ? row : { ...row, source }));
  }
  return [rowOf(node, String(value), path)];
}

const childOf = (node: SchemaNode, key: string): SchemaNode => node.properties?.[key] ?? (typeof node.additionalProperties === 'object' ? node.additionalProperties : {});
const nameOf = (value: unknown, place: number): string => (typeof value === 'object' && value !== null && 'id' in value ? String(value.id) : String(place + 1));

function rowOf(node: SchemaNode, value: string, path: string): CardRow {
  return { name: path, value, unit: UNIT_WORDS[node.unit ?? ''] ?? node.unit ?? '', range: rangeOf(node), meaning: node.description ?? '', source: node.source ?? '' };
}

function rangeOf(node: SchemaNode): string {
  const bounds = node.prefixItems?.[0] ?? node;
  if (bounds.minimum !== undefined && bounds.maximum !== undefined) return `${bounds.minimum} to ${bounds.maximum}`;
  return node.enum?.join(', ') ?? '';
}

/** All parameters of the growth model: the card's own value where it sets one, with the card's source. */
function modelRows({ growth }: CropCard): CardRow[] {
  return (GROWTH_MODELS[growth.model]?.parameters ?? []).map((is): CardRow => {
    const own = growth.parameters[is.symbol];
    return { name: is.symbol, value: String(own?.value ?? is.default), unit: UNIT_WORDS[is.unit] ?? is.unit, range: `${is.min} to ${is.max}`, meaning: `${is.name}: ${is.meaning}`, source: own === undefined ? is.source : `this card: ${own.source}` };
  });
}
