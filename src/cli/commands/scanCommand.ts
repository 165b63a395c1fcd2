import { statSync } from 'node:fs';
import { accepted } from '../../science/refusal.ts';
import { readLayout } from '../../science/scan/readLayout.ts';
import { readPreviousScan } from '../../science/scan/readPreviousScan.ts';
import { scanFile } from '../../store/scan/scanFile.ts';
import { startScanHelper } from '../../store/scan/startScanHelper.ts';
import type { CliCommand } from '../cliCommand.ts';
import { readJsonFile } from '../readJsonFile.ts';
import { refuseOption } from '../refuseOption.ts';
import { scanSheet } from '../sheets/scanSheet.ts';

export const scanCommand: CliCommand = {
  name: 'scan', argument: 'CLOUD',
  options: [
    { flags: '--basin <layout>', summary: 'JSON file with the layout of the basin: rim, rafts, planting positions.' },
    { flags: '--previous <result>', summary: 'JSON result of an earlier scan of the same plants; tells touching plants apart better.' },
  ],
  summary: 'Measure every plant in a point cloud of a basin: area, volume, heights, and how far the scan can be trusted.',
  run: async (path, { basin, previous }) => {
    const helper = deservesHelper(path) ? startScanHelper() : undefined;
    if (typeof basin !== 'string') return refuseOption('--basin', '', 'the layout of the basin as a JSON file');
    const json = readJsonFile(basin);
    if (!json.ok) return json;
    const layout = readLayout(json.value, basin);
    if (!layout.ok) return layout;
    const before = typeof previous === 'string' ? readJsonFile(previous) : accepted({ plants: [] });
    if (!before.ok) return before;
    const earlier = readPreviousScan(before.value, String(previous));
    if (!earlier.ok) return earlier;
    const scan = await scanFile(path, layout.value, earlier.value, helper);
    if (!scan.ok) return scan;
    const { result, seconds } = scan.value;
    const answer = { ...result, seconds: { ...seconds, sinceStart: performance.now() / 1000 } };
    return accepted({ json: answer, sheet: scanSheet(answer) }, scan.warnings);
  },
};

/** A second thread costs about as much to start as reading so many bytes. */
const HELPER_BYTES = 90_000_000;

const deservesHelper = (path: string): boolean => (statSync(path, { throwIfNoEntry: false })?.size ?? 0) > HELPER_BYTES;
