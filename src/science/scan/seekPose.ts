import type { Outcome } from '../refusal.ts';
import type { BasinLayout } from './basinLayout.ts';
import { findPose, type Pose } from './findPose.ts';
import type { PointCloud } from './pointCloud.ts';

/** Points in the sample for the pose. */
const SAMPLE_POINTS = 16_000;
/** With fewer points of the rim in it, leaves hide most of the rim, and more of the cloud is looked at. */
const ENOUGH_RIM_POINTS = 200;
const LARGER_SAMPLE = 8 * SAMPLE_POINTS;

/** Finds something in a sample of about so many points from all over a cloud. */
export type InSample = (points: number, find: (sample: PointCloud) => Outcome<Pose>) => Outcome<Pose>;

/** The pose of a basin from a small sample of its cloud; from a larger one where a crop that is closed to the rim hides most of it. */
export function seekPose(inSample: InSample, layout: BasinLayout): Outcome<Pose> {
  const first = inSample(SAMPLE_POINTS, (sample) => findPose(sample, layout));
  if (first.ok ? first.value.quality.rimPoints >= ENOUGH_RIM_POINTS : first.refusals.every(({ code }) => code !== 'scan-rim-not-found')) return first;
  const second = inSample(LARGER_SAMPLE, (sample) => findPose(sample, layout));
  return second.ok || !first.ok ? second : first;
}
