import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CaseMeter, climateCases } from '../../../test/climateCases.ts';
import { EPW_FIELDS } from './readEpw.ts';

/** Published cases that nothing in this folder answers, and why. */
const NOT_HERE: Readonly<Record<string, string>> = {
  'boland-pvlib': 'the Boland split is not offered; Erbs is', 'spa-libs': 'results of two libraries, not of ours',
  'solar-accuracy': 'errors of other methods; ours has its own grid in sun.test.ts', 'u-conv': 'no imperial units here',
  'gl-effective-U': 'a run of a dynamic model; its month values are checked', gwp: 'footprints', n2o: 'footprints', freight: 'footprints',
  'water-energy': 'footprints', grid: 'footprints', lettuce: 'footprints', 'uv-wf': 'disinfection', 'uv-dose': 'disinfection', 'heat-treat': 'disinfection',
};

describe.skipIf(climateCases === undefined)('published climate cases', () => {
  it('has the missing markers of the EPW dictionary', () => {
    const markers = new CaseMeter().case('epw-missing').expect as Record<string, number>;
    const of = (quantity: string) => EPW_FIELDS.find((one) => one.quantity === quantity)?.missingFrom;
    expect([of('airC'), of('dewPointC'), of('rhPct'), of('pressurePa'), of('skyIrWM2'), of('globalWM2'), of('directNormalWM2'), of('diffuseWM2'), of('windMS')])
      .toEqual([markers['drybulb'], markers['dewpoint'], markers['rh'], markers['pressure'], ...Array.from({ length: 4 }, () => markers['radiation']), markers['wind_speed']]);
  });

  it('are each checked by a test of this folder, or set aside for a stated reason', () => {
    const folder = new URL('./', import.meta.url);
    const tests = readdirSync(folder).filter((name) => name.endsWith('.test.ts') && name !== 'publishedCases.test.ts').map((name) => readFileSync(new URL(name, folder), 'utf8')).join('\n');
    const ids = [...(climateCases as ReadonlyMap<string, unknown>).keys()];
    const checked = ids.filter((id) => id === 'epw-missing' || tests.includes(`'${id}'`));
    const open = ids.filter((id) => !checked.includes(id) && !(id in NOT_HERE));
    console.log(`climate: ${checked.length} of ${ids.length} published cases checked; set aside: ${ids.filter((id) => !checked.includes(id)).map((id) => `${id} (${NOT_HERE[id]})`).join(', ')}`);
    expect(open).toEqual([]);
    expect(checked.filter((id) => id in NOT_HERE)).toEqual([]);
  });
});
