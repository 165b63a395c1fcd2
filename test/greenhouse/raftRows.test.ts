import { expect, test } from 'vitest';
import { readGreenhouseFolder } from '../../src/greenhouse/files/readGreenhouseFolder.ts';
import { shortDemo } from './shortDemo.ts';

test.each([[3, true], [4, false], [6, true]])('6 rafts in rows of %i', (raftsAlong, fits) => {
  const demo = shortDemo(5), yaml = demo['greenhouse.yaml']!, outcome = readGreenhouseFolder({ ...demo, 'greenhouse.yaml': yaml.replace("rafts: 6,", `rafts: 6, raftsAlong: ${raftsAlong},`) });
  expect(yaml).toContain('rafts: 6,');
  expect(outcome.ok).toBe(fits);
  if (!outcome.ok) expect(outcome.refusals).toEqual([expect.objectContaining({ code: 'inconsistent', path: expect.stringMatching(/^greenhouse\.yaml:\d+:\d+/), value: 4, limit: [1, 2, 3, 6], severity: 'error', message: expect.stringContaining('do not stand in rows of 4') })]);
});
