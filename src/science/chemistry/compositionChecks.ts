import type { Refusal } from '../refusal.ts';
import { isComponent, type Component } from './composition.ts';

/** Every fault of a composition that came from outside: unknown names, not numbers, negative amounts (alkalinity may be negative). */
export function refuseComposition(composition: Readonly<Record<string, unknown>>, path: string): Refusal[] {
  return Object.entries(composition).flatMap(([name, value]): Refusal[] => {
    const place = `${path}.${name}`;
    if (!isComponent(name)) return [{ code: 'key-unknown', path: place, message: `${name} is not a dissolved component known here`, severity: 'error' }];
    if (value === undefined) return [];
    if (typeof value !== 'number' || !Number.isFinite(value)) return [{ code: 'value-not-a-number', path: place, value, unit: 'mmol/L', message: `${name} must be a number of mmol/L`, severity: 'error' }];
    return refuseNegative(name, value, place);
  });
}

function refuseNegative(name: Component, value: number, path: string): Refusal[] {
  if (value >= 0 || name === 'HCO3') return [];
  return [{ code: 'value-out-of-range', path, value, limit: 'at least 0', unit: 'mmol/L', message: `${name} cannot be negative`, severity: 'error' }];
}

/** A fault when a number is not above zero. */
export function refuseNotPositive(value: number, path: string, unit: string): Refusal[] {
  if (Number.isFinite(value) && value > 0) return [];
  return [{ code: 'value-out-of-range', path, value, limit: 'above 0', unit, message: `${path} must be above zero`, severity: 'error' }];
}
