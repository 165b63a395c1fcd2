/** Fields of a comma-separated line with their columns, and a list of what is wrong with a file. */
import type { Outcome, Refusal } from '../refusal.ts';
import { accepted, refused } from '../refusal.ts';
import type { RefusalCode } from '../refusalCodes.ts';

export interface Field {
  readonly text: string;
  /** Where the field starts in its line, counted from 1. */
  readonly column: number;
}

/** Lines of a text, whatever ends them, without a byte order mark. */
export const splitLines = (text: string): string[] => text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);

/** Fields between commas, blanks around them dropped. No quoting: none of the weather formats has it. */
export function splitFields(line: string): Field[] {
  let column = 1;
  return line.split(',').map((raw) => {
    const field = { text: raw.trim(), column: column + raw.length - raw.trimStart().length };
    column += raw.length + 1;
    return field;
  });
}

const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/** A plain decimal number, or undefined for anything else (hexadecimal, infinity and empty included). */
const parseDecimal = (text: string): number | undefined => (DECIMAL.test(text) && Number.isFinite(Number(text)) ? Number(text) : undefined);

/** What a number may be. */
export interface NumberRange { readonly least: number; readonly most: number; readonly unit: string }

/** Refusals about one file, each with line and column; past `most` of them only their number is kept. */
export class FileRefusals {
  readonly #errors: Refusal[] = [];
  readonly #warnings: Refusal[] = [];
  #untold = 0;

  constructor(readonly fileName: string, readonly most = 40) {}

  place(line: number, column: number): string {
    return `${this.fileName}:${line}:${column}`;
  }

  refuse(code: RefusalCode, line: number, column: number, message: string, found: Partial<Pick<Refusal, 'value' | 'limit' | 'unit'>> = {}): void {
    if (this.#errors.length >= this.most) this.#untold += 1;
    else this.#errors.push({ code, path: this.place(line, column), message, severity: 'error', ...found });
  }

  warn(code: RefusalCode, line: number, column: number, message: string): void {
    this.#warnings.push({ code, path: this.place(line, column), message, severity: 'warning' });
  }

  get any(): boolean {
    return this.#errors.length > 0;
  }

  /** A number in its range, or undefined with the refusal noted. */
  number(field: Field, line: number, name: string, range: NumberRange): number | undefined {
    const value = parseDecimal(field.text);
    if (value === undefined) {
      this.refuse('value-not-a-number', line, field.column, `${name} should be a decimal number.`, { value: field.text, unit: range.unit });
    } else if (value < range.least || value > range.most) {
      this.refuse('value-out-of-range', line, field.column, `${name} should lie between ${range.least} and ${range.most} ${range.unit}.`,
        { value, limit: [range.least, range.most], unit: range.unit });
    } else return value;
    return undefined;
  }

  refused(): Outcome<never> {
    const more: Refusal[] = this.#untold === 0 ? [] : [{
      code: 'syntax', path: this.fileName, value: this.#untold, severity: 'error',
      message: `${this.#untold} more places in this file are wrong; mend the ones listed first.`,
    }];
    return refused([...this.#errors, ...more]);
  }

  accepted<T>(value: T): Outcome<T> {
    return accepted(value, this.#warnings);
  }
}
