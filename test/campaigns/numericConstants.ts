import { readFileSync } from 'node:fs';
import ts from 'typescript';

/** A number in the source text, and what it is changed to. */
export interface Mutation {
  readonly path: string;
  readonly line: number;
  /** The whole line. */
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly from: string;
  readonly to: string;
}

const UNREMARKABLE: readonly number[] = [0, 1, 2];

/** Whole numbers below 20 become one more; all others grow by 5 %. */
export const changedConstant = (value: number): number => (Number.isInteger(value) && value < 20 ? value + 1 : Number((value * 1.05).toPrecision(15)));

/** All numbers of a file but 0, 1 and 2 (`small`: those too). Numbers in types are none. */
export function numericConstants(path: string, small: boolean): Mutation[] {
  const source = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.Latest, true);
  const lines = source.text.split('\n');
  const found: Mutation[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isNumericLiteral(node) && !ts.isLiteralTypeNode(node.parent) && (small || !UNREMARKABLE.includes(Number(node.text)))) {
      const { line } = source.getLineAndCharacterOfPosition(node.getStart());
      found.push({ path, line: line + 1, text: lines[line]!, start: node.getStart(), end: node.getEnd(), from: node.getText(), to: String(changedConstant(Number(node.text))) });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}
