import { z } from 'zod';
import { identifier, instant } from '../../greenhouse/schema/quantity.ts';
import { accepted, refused, type Outcome } from '../../science/refusal.ts';

/** What a cloud is of. */
export interface CloudOccasion { readonly basin: string; readonly takenAt: string }

export const CLOUD_NAME = /\.(ply|pcd|las|laz)$/i;
const NAME = /^(?<basin>.+)_(?<date>\d{4}-\d\d-\d\d)T(?<hour>\d\d)-?(?<minute>\d\d)(?:-?(?<second>\d\d))?Z\.[A-Za-z]+$/;

const beside = z.strictObject({ basin: identifier, takenAt: instant });

/** Where a cloud lies, for a person: in the folder scans/, or BUCKET/KEY. */
export const cloudPath = (name: string): string => (name.includes('/') ? name : `scans/${name}`);

/**
 * Basin and instant of a cloud: from a JSON file beside it (NAME.ply.json: `{"basin":"B041","takenAt":"2026-03-14T09:30:00Z"}`) or from
 * its name, BASIN_DATETTIMEZ with the time in UTC: `B041_2026-03-14T09-30-00Z.ply` (seconds and hyphens may be left out). Refused where
 * neither says it.
 */
export function readCloudName(name: string, besideText?: string): Outcome<CloudOccasion> {
  if (besideText !== undefined) return readBeside(name, besideText);
  const file = name.slice(name.lastIndexOf('/') + 1), found = NAME.exec(file)?.groups;
  const takenAt = found === undefined ? NaN : Date.parse(`${found.date}T${found.hour}:${found.minute}:${found.second ?? '00'}Z`);
  if (found === undefined || !Number.isFinite(takenAt) || !identifier.safeParse(found.basin).success) {
    return refused([{ code: 'value-missing', path: cloudPath(name), value: name, limit: 'BASIN_2026-03-14T09-30-00Z.ply', message: `The name of the cloud does not say which basin it shows and when (UTC); name it like B041_2026-03-14T09-30-00Z.ply, or put ${file}.json with basin and takenAt beside it.`, severity: 'error' }]);
  }
  return accepted({ basin: found.basin!, takenAt: new Date(takenAt).toISOString() });
}

function readBeside(name: string, text: string): Outcome<CloudOccasion> {
  const json = parseJson(text), parsed = beside.safeParse(json);
  if (parsed.success) return accepted({ basin: parsed.data.basin, takenAt: new Date(parsed.data.takenAt).toISOString() });
  return refused([{ code: json === undefined ? 'syntax' : 'value-not-allowed', path: `${cloudPath(name)}.json`, limit: '{"basin":"B041","takenAt":"2026-03-14T09:30:00Z"}', message: `What lies beside the cloud is not a JSON file with basin and takenAt (UTC) and nothing else: ${parsed.error.issues[0]?.message ?? 'no JSON'}.`, severity: 'error' }]);
}

function parseJson(text: string): unknown {
  try { return JSON.parse(text) as unknown; } catch { return undefined; }
}
