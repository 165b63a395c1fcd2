import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { StopPin } from '../../greenhouse/events.ts';
import { localClock } from '../../planning/day/shiftDay.ts';
import type { LaidDay } from '../../planning/edit/laidDay.ts';
import { tryPin, type TriedPin } from '../../planning/edit/tryPin.ts';
import type { AcceptedAnswer, TryAnswer, TryRequest } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { parseOrRefuse, refuse, RefusedRequest } from '../http/answers.ts';
import { stateTitles } from '../views/stateTitles.ts';
import { demandPerson } from './people.ts';

const by = z.string().min(1).max(48);
const stop = { visit: z.string().min(1).max(100), stop: z.number().int().min(0).max(99) };
const move = { planId: z.string().min(1).max(64), ...stop, station: z.string().min(1).max(48), startAt: z.iso.datetime() };
const tryBody = z.strictObject(move);
const pinBody = z.strictObject({ ...move, by });
const releaseBody = z.strictObject({ ...stop, by });

/** A person moves a stop of a plan: what it breaks, keep it there and plan the rest around it, or let go of it again. */
export function editRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.post('/api/plan/try', (request): TryAnswer => {
    const begun = performance.now();
    const tried = tryOn(desk, parseOrRefuse(tryBody, request.body, 'body'));
    return { ...tried, tookMs: Math.round((performance.now() - begun) * 10) / 10 };
  });

  app.post('/api/plan/pins', (request, reply) => {
    const { by: id, ...asked } = parseOrRefuse(pinBody, request.body, 'body');
    const person = demandPerson(desk.greenhouse.state(), id, 'mayApprove');
    const tried = tryOn(desk, asked);
    if (tried.impossible.length > 0) throw new RefusedRequest(tried.impossible.map((message) => ({ code: 'infeasible', path: 'body.startAt', value: asked.startAt, message, severity: 'error' })));
    const pin: StopPin = { visit: asked.visit, stop: asked.stop, station: asked.station, startAt: tried.startAt, by: person.id };
    desk.morning.keepPins([...others(desk, pin), pin], `${person.name} wants ${pinWords(desk, pin, demandLaid(desk, asked.planId))}`);
    return reply.code(202).send(taken(desk));
  });

  app.post('/api/plan/pins/release', (request, reply) => {
    const body = parseOrRefuse(releaseBody, request.body, 'body');
    const person = demandPerson(desk.greenhouse.state(), body.by, 'mayApprove');
    const left = others(desk, body);
    if (left.length === desk.morning.pins().length) throw refuse('state-conflict', 'body.visit', 'This stop is not kept anywhere any more. Look at the newest plan.', body.visit);
    desk.morning.keepPins(left, `${person.name} let go of stop ${body.stop + 1} of ${body.visit}`);
    return reply.code(202).send(taken(desk));
  });
}

const taken = (desk: DeskParts): AcceptedAnswer => ({ accepted: true, sequence: desk.greenhouse.state().sequence, warnings: [] });

const others = (desk: DeskParts, of: { readonly visit: string; readonly stop: number }): StopPin[] => desk.morning.pins().filter(({ visit, stop: number }) => visit !== of.visit || number !== of.stop);

/** The plan with its times, or a refusal. */
function demandLaid(desk: DeskParts, planId: string): LaidDay {
  const laid = desk.morning.laid(planId);
  if (laid === undefined) throw refuse('state-conflict', 'body.planId', 'Stops can be moved on the newest plan and on the plan in force, and this is neither. Open the morning page again, or plan again from what is known now.', planId);
  return laid;
}

function tryOn(desk: DeskParts, asked: TryRequest): TriedPin {
  const state = desk.greenhouse.state();
  const laid = demandLaid(desk, asked.planId);
  const kind = (id: string) => state.file?.stations.find((station) => station.id === id)?.kind;
  if (kind(asked.station) === undefined) throw refuse('reference-unknown', 'body.station', `No station "${asked.station}" is described in greenhouse.yaml.`, asked.station);
  if (state.outcomes[`${asked.planId}/${asked.visit}/${asked.stop}`] !== undefined) throw refuse('state-conflict', 'body.stop', 'This stop is marked already; what has happened cannot be moved.', asked.stop);
  const titles = stateTitles(state);
  const tried = tryPin(laid, asked, Date.parse(desk.nowAt()), (id) => titles[id] ?? id);
  if (tried === undefined) throw refuse('reference-unknown', 'body.stop', `The plan has no stop ${asked.stop + 1} of visit ${asked.visit} that is still to be made.`, asked.stop);
  return tried;
}

function pinWords(desk: DeskParts, pin: StopPin, { problem, timeZone }: LaidDay): string {
  const basin = problem.visits.find(({ id }) => id === pin.visit)?.basin ?? pin.visit;
  return `basin ${basin} at ${stateTitles(desk.greenhouse.state())[pin.station] ?? pin.station} from ${localClock(Date.parse(pin.startAt), timeZone)}`;
}
