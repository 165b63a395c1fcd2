import type { ScanAnswer, ScanQuality, ScanSummary } from '../../desk/contract.ts';
import { count, fixed, percent, plain } from '../words/figures.ts';

/** What a scan says, before any picture. */
export function scanSentence({ summary }: ScanAnswer): string {
  return `${summary.present} of ${summary.positions} positions hold a plant. ${massSentence(summary)} ${lookSentence(summary)}`;
}

function massSentence({ meanFreshG, meanLowG, meanHighG, gapToForecast, meanAreaCm2, meanHeightMm }: ScanSummary): string {
  if (meanFreshG === undefined) return `A plant covers ${plain(meanAreaCm2)} cm² and stands ${fixed(meanHeightMm, 0)} mm high on average.`;
  const interval = meanLowG === undefined || meanHighG === undefined ? '' : ` (nine in ten: ${plain(meanLowG)} to ${plain(meanHighG)} g)`;
  return `A plant weighs about ${plain(meanFreshG)} g on average${interval}${gapToForecast === undefined ? '' : `, ${gapWords(gapToForecast)}`}.`;
}

/** "4 % behind the forecast". */
export function gapWords(gap: number): string {
  if (Math.abs(gap) < 0.005) return 'as forecast';
  return `${percent(Math.abs(gap))} ${gap < 0 ? 'behind' : 'ahead of'} the forecast`;
}

const lookSentence = ({ toLookAt, scored }: ScanSummary): string =>
  `${toLookAt === 0 ? 'None stands out' : `${count(toLookAt, 'plant stands', 'plants stand')} out`}; ${scored === 0 ? 'none is scored yet' : `${scored} ${scored === 1 ? 'is' : 'are'} scored`}.`;

/** How far a scan can be trusted, in sentences. */
export function qualitySentences(is: ScanQuality): readonly string[] {
  const heaves = is.rafts.map(({ heaveMm }) => heaveMm), borrowed = is.rafts.filter(({ plane }) => plane === 'borrowed').map(({ raft }) => raft);
  const noise = is.rafts.flatMap(({ plane, noiseMm }) => (plane === 'bare' && noiseMm !== undefined ? [noiseMm] : []));
  return [
    `${count(is.points, 'point')}, ${percent(is.pointsInside / Math.max(1, is.points))} of them over the basin, gathered in cells of ${plain(is.cellMm)} mm; ${percent(is.emptyShare)} of the raft area was not seen.`,
    `The rim was found on ${is.rimSides} of 4 sides, level to ${fixed(is.rimFlatnessMm, 1)} mm; the cloud is ${fixed(is.sizeRatio * 100, 1)} % of the basin's size. The basin stood turned by ${fixed(is.yawDeg, 1)}° under the camera.`,
    `Rafts float ${signedMm(Math.min(...heaves))} to ${signedMm(Math.max(...heaves))} mm off their nominal level and lean by ${fixed(Math.max(...is.rafts.map(({ tiltDeg }) => tiltDeg)), 2)}° at most; heights are taken over each raft as it floats.`,
    ...(noise.length === 0 ? [] : [`Single points scatter by ${fixed(Math.max(...noise), 1)} mm about a bare raft.`]),
    ...(borrowed.length === 0 ? [] : [`Leaves hide ${borrowed.length === 1 ? 'raft' : 'rafts'} ${borrowed.join(', ')}; the level was borrowed from the others, so heights there are less certain.`]),
    ...(is.coloured ? [] : ['The cloud has no colours: plants were told by height alone, and yellowing is not judged.']),
  ];
}

const signedMm = (value: number): string => fixed(value, 1).replace('-', '−');
