import { parentPort } from 'node:worker_threads';
import type { MassBasis } from '../../greenhouse/scanEvents.ts';
import { estimateMass, type MassQuestion } from '../../planning/imaging/estimateMass.ts';
import { presentPlants } from '../../planning/imaging/composeScan.ts';
import type { ScanPlant } from '../../planning/imaging/scanPlants.ts';
import { accepted, type Outcome } from '../../science/refusal.ts';
import type { BasinLayout } from '../../science/scan/basinLayout.ts';
import type { ScanQuality } from '../../science/scan/scanResult.ts';
import { measureCloud, type CloudTask } from '../../store/scan/measureCloud.ts';
import type { PlanNews, PlanTask } from '../planning/planThread.ts';

export interface ScanTask { readonly cloud: CloudTask; readonly mass: MassQuestion }
export interface ScanWork { readonly quality: ScanQuality; readonly layout: BasinLayout; readonly plants: readonly ScanPlant[]; readonly mass: MassBasis }

/** The module that the imaging thread runs: one cloud after another, with news of each. */
const port = parentPort!;
const tell = (news: PlanNews<ScanWork>): void => port.postMessage(news);

port.on('message', (task: PlanTask<ScanTask>) => void work(task));

async function work({ task, inputs }: PlanTask<ScanTask>): Promise<void> {
  try {
    tell({ task, news: 'planned', outcome: await measure(inputs, (share, step) => tell({ task, news: 'progress', step, share })) });
  } catch (error) {
    tell({ task, news: 'broke', message: error instanceof Error ? error.stack ?? error.message : String(error) });
  }
}

async function measure({ cloud, mass }: ScanTask, onProgress: (share: number, step: string) => void): Promise<Outcome<ScanWork>> {
  const measured = await measureCloud(cloud, onProgress);
  if (!measured.ok) return measured;
  const { quality, plants, colours, layout } = measured.value;
  onProgress(0.95, 'telling mass');
  const told = estimateMass(presentPlants(plants, layout, colours), mass);
  return accepted({ quality, layout, plants: told.plants, mass: told.basis }, measured.warnings);
}
