// A program that opens a store, writes one event and leaves without closing it.
import { openStore } from '../../../src/store/openStore.ts';

const opened = await openStore({ folder: process.argv[2] ?? '', greenhouse: 'left' });
if (!opened.ok) throw new Error('refused');
await opened.value.journal.append([{ kind: 'k', happenedAt: '2026-11-25T06:30:00Z', recordedBy: 'x', body: {} }]);
process.exit(7);
