import type { JournalEvent, Reading } from '../../greenhouse/journalEvent.ts';

/** The first line of an export. */
export const BACKUP_FORM = 1;

/** One line of an export: exactly one of these. */
export type BackupLine =
  | { readonly watermeadowJournal: number; readonly greenhouse: string }
  | { readonly event: JournalEvent }
  | { readonly reading: Reading }
  | { readonly end: BackupEnd };

/** The last line: what should have come before it. */
export interface BackupEnd {
  readonly events: number;
  readonly readings: number;
  readonly headHash: string;
}

export const writeLine = (line: BackupLine): string => `${JSON.stringify(line)}\n`;
