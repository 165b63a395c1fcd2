/** Settles a model's parameters: the table's defaults, overridden where a crop card says so. */
import type { Outcome, Refusal } from '../refusal.ts';
import { accepted, refused } from '../refusal.ts';
import type { ParameterOverrides, ParameterTable } from './growthModel.ts';

/** Values in the order of the table. Refuses unknown symbols, non-numbers and values outside their range, all at once. */
export function settleParameters(table: ParameterTable, overrides: ParameterOverrides): Outcome<Float64Array> {
  const refusals = [...findUnknown(table, overrides), ...findOutOfRange(table, overrides)];
  if (refusals.length > 0) return refused(refusals);
  return accepted(Float64Array.from(table, (parameter) => overrides[parameter.symbol] ?? parameter.default));
}

function findUnknown(table: ParameterTable, overrides: ParameterOverrides): Refusal[] {
  const known = new Set(table.map((parameter) => parameter.symbol));
  return Object.keys(overrides).filter((symbol) => !known.has(symbol)).map((symbol): Refusal => ({
    code: 'key-unknown', path: `parameters.${symbol}`, value: symbol, limit: [...known], severity: 'error',
    message: `The growth model has no parameter ${symbol}.`,
  }));
}

function findOutOfRange(table: ParameterTable, overrides: ParameterOverrides): Refusal[] {
  return table.flatMap((parameter): Refusal[] => {
    const value = overrides[parameter.symbol];
    if (value === undefined || (value >= parameter.min && value <= parameter.max)) return [];
    return [{
      code: Number.isFinite(value) ? 'value-out-of-range' : 'value-not-a-number', path: `parameters.${parameter.symbol}`, value,
      limit: [parameter.min, parameter.max], unit: parameter.unit, severity: 'error',
      message: `${parameter.name} should lie between ${parameter.min} and ${parameter.max} ${parameter.unit}.`,
    }];
  });
}

/** The value of one parameter by symbol; a symbol that is not in the table is a bug. */
export function valueOf(table: ParameterTable, values: Float64Array, symbol: string): number {
  const value = values[table.findIndex((parameter) => parameter.symbol === symbol)];
  if (value === undefined) throw new Error(`no parameter ${symbol}`);
  return value;
}
