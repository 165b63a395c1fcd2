import type { MarkStopRequest, StationKind } from '../../desk/contract.ts';

interface ActualField { readonly name: 'volumeL' | 'freshKg' | 'plants'; readonly label: string; readonly step: number }

/** What a person may say of a stop that went otherwise than planned. */
export function actualFields(kind: StationKind): readonly ActualField[] {
  if (kind === 'filling') return [{ name: 'volumeL', label: 'Litres in the basin now, if different', step: 0.1 }];
  if (kind === 'harvest') return [{ name: 'freshKg', label: 'Kilograms cut, if weighed', step: 0.01 }, { name: 'plants', label: 'Plants cut, if different', step: 1 }];
  if (kind === 'transplanting') return [{ name: 'plants', label: 'Plants moved, if different', step: 1 }];
  return [];
}

/** The form of a stop as the request that goes to the desk; empty fields are left out. */
export function readMark(result: 'done' | 'failed', by: string, form: FormData): MarkStopRequest {
  if (result === 'failed') return { result, by, reason: text(form, 'reason') ?? '' };
  const given = (['volumeL', 'freshKg', 'plants'] as const).flatMap((name) => {
    const value = text(form, name);
    return value === undefined ? [] : [[name, Number(value)] as const];
  });
  return given.length === 0 ? { result, by } : { result, by, actual: Object.fromEntries(given) };
}

function text(form: FormData, name: string): string | undefined {
  const value = form.get(name);
  return typeof value === 'string' && value.trim() !== '' ? value.trim() : undefined;
}
