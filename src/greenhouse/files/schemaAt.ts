import { z } from 'zod';

/** The parts of a JSON Schema that messages need. */
export interface SchemaNode {
  readonly type?: string;
  readonly unit?: string;
  readonly description?: string;
  readonly source?: string;
  readonly default?: unknown;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: SchemaNode | boolean;
  readonly items?: SchemaNode | boolean;
  readonly prefixItems?: readonly SchemaNode[];
  readonly anyOf?: readonly SchemaNode[];
}

const cache = new WeakMap<z.ZodType, SchemaNode>();

/** The published form of a file schema: JSON Schema 2020-12 of what a person writes. */
export function jsonSchemaOf(schema: z.ZodType): SchemaNode {
  const known = cache.get(schema);
  if (known !== undefined) return known;
  const made = z.toJSONSchema(schema, { io: 'input', reused: 'inline' }) as SchemaNode;
  cache.set(schema, made);
  return made;
}

/** The schema of the value at a path; absent where the schema says nothing about it. */
export function schemaAt(root: SchemaNode, path: readonly PropertyKey[]): SchemaNode | undefined {
  let node: SchemaNode | undefined = root;
  for (const key of path) node = node === undefined ? undefined : childOf(node, key);
  return node;
}

function childOf(node: SchemaNode, key: PropertyKey): SchemaNode | undefined {
  if (typeof key === 'number') return node.prefixItems?.[key] ?? (typeof node.items === 'object' ? node.items : undefined);
  const named = node.properties?.[String(key)];
  if (named !== undefined) return named;
  if (typeof node.additionalProperties === 'object') return node.additionalProperties;
  for (const option of node.anyOf ?? []) { const found = childOf(option, key); if (found !== undefined) return found; }
  return undefined;
}
