import type { BasinAnswer } from '../../desk/contract.ts';
import { count, fixed, litres, percent, withUnit } from '../words/figures.ts';
import { inDays, shortDate } from '../words/times.ts';

/** The basin in plain sentences, before any picture. */
export function BasinWords({ basin }: { readonly basin: BasinAnswer }) {
  const { outlook, dimensions } = basin;
  return (
    <>
      <h1>Basin {outlook.basin}</h1>
      <p className="sentence">{cropSentence(basin)} {waterSentence(basin)}</p>
      <p className="soft">
        {basin.bayTitle}, berth {outlook.berth} · {fixed(dimensions.lengthMm / 1000, 2)} × {fixed(dimensions.widthMm / 1000, 2)} m, holds {litres(dimensions.fullL)} when full, {count(dimensions.rafts, 'raft')}
        {outlook.weightKg !== undefined && ` · weighs about ${withUnit(fixed(outlook.weightKg, 0), 'kg')} now`}
      </p>
    </>
  );
}

function cropSentence({ outlook, cropTitle, stageTitle, date }: BasinAnswer): string {
  if (outlook.lot === undefined) return 'Nothing grows in this basin.';
  const plants = outlook.plants === undefined ? 'Plants' : count(outlook.plants, 'plant');
  const what = `${plants} of ${(cropTitle ?? outlook.crop ?? 'an unknown crop').toLowerCase()}, stage ${(stageTitle ?? outlook.stage ?? 'unknown').toLowerCase()}, lot ${outlook.lot}`;
  return outlook.readyDate === undefined ? `${what}.` : `${what}; ready ${shortDate(outlook.readyDate)}, ${inDays(date, outlook.readyDate)}.`;
}

function waterSentence({ outlook, date }: BasinAnswer): string {
  const { water } = outlook;
  if (water === undefined) return `Its water is not known: ${outlook.waterUnknown ?? 'no reason was given'}.`;
  const low = water.lowLevelDate === undefined ? '' : `, low ${inDays(date, water.lowLevelDate)}`;
  const out = water.outOfBand.length === 0 ? 'all known properties within their bands' : `out of band: ${water.outOfBand.join(', ')}`;
  return `It is ${percent(water.levelShare)} full${low}; ${out}.`;
}
