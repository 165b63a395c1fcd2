import { describe, expect, it } from 'vitest';
import type { StationDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import type { NeedDraft, TransplantMove } from '../needs/needDraft.ts';
import { groupVisits } from './groupVisits.ts';
import { serviceS } from './stationTimes.ts';

const need = (kind: NeedDraft['kind'], urgency: NeedDraft['urgency'], more: Partial<NeedDraft> = {}): NeedDraft => ({ basin: 'B1', kind, urgency, reason: kind, why: 'test', ...more });
const move: TransplantMove = { lot: 'L', crop: 'leaf', sown: '2026-02-01', stage: 'finish', fromBasin: 'B1', plants: 90, targets: [{ basin: 'B2', plants: 90, toBerth: 'G2' }] };
const harvest = { lot: 'L', plants: 60, orders: [], freshG: 200 };
const kindsOf = (needs: readonly NeedDraft[], wash = true) => groupVisits(needs, wash).map(({ visit, kinds, urgency }) => [visit, kinds.join('+'), urgency]);

describe('groupVisits', () => {
  it('images a basin that goes out for water when its turn comes soon anyway', () => {
    expect(kindsOf([need('filling', 'must'), need('imaging', 'may')])).toEqual([['F-B1', 'imaging+filling', 'must']]);
  });

  it('sends nothing out for what is only due soon', () => {
    expect(kindsOf([need('imaging', 'may'), need('filling', 'may')])).toEqual([]);
  });

  it('harvests and washes, and neither images nor fills what is emptied today', () => {
    expect(kindsOf([need('harvest', 'must', { harvest }), need('imaging', 'should'), need('filling', 'must')])).toEqual([['H-B1', 'harvest+washing', 'must']]);
    expect(kindsOf([need('harvest', 'must', { harvest })], false)).toEqual([['H-B1', 'harvest', 'must']]);
  });

  it('does not cut what nobody waits for, and looks after it instead', () => {
    expect(kindsOf([need('harvest', 'may', { harvest }), need('imaging', 'should')])).toEqual([['I-B1', 'imaging', 'should']]);
  });

  it('fills a target before plants come into it, and washes the basin that they leave', () => {
    expect(kindsOf([need('transplanting', 'must', { move }), need('filling', 'must', { basin: 'B2', move }), need('transplanting', 'must', { basin: 'B2', move })]))
      .toEqual([['T-B1', 'transplanting+washing', 'must'], ['T-B2', 'filling+transplanting', 'must']]);
  });
});

describe('serviceS', () => {
  const station = (service: StationDescription['service']): StationDescription => ({ id: 's', title: 's', kind: 'filling', node: 'n', places: 1, queuePlaces: 1, service, crew: 1 });
  it('adds fixed time, plants and flow, and rounds up', () => {
    expect(serviceS(station({ fixedS: 90, perPlantS: 0, flowLPerMin: 70 }), { plants: 0, litres: 100 })).toBe(176);
    expect(serviceS(station({ fixedS: 120, perPlantS: 1.2 }), { plants: 69, litres: 100 })).toBe(203);
  });
});
