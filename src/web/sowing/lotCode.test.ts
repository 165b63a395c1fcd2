import { expect, it } from 'vitest';
import { lotCode } from './lotCode.ts';

it('takes the first letters of the name and the day', () => {
  expect([lotCode('Sweet basil', '2026-04-14'), lotCode('Coriander', '2026-04-14'), lotCode('Red oakleaf lettuce', '2026-12-01'), lotCode('', '2026-04-14')]).toEqual(['SB-260414', 'CO-260414', 'RO-261201', 'LO-260414']);
});
