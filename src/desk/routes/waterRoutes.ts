import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { RecipeAnswer, SheetsAnswer, WaterAnswer } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { parseOrRefuse } from '../http/answers.ts';
import { recipeView, sheetsView } from '../views/sheetsView.ts';
import { waterView } from '../views/waterView.ts';

const id = z.string().min(1).max(48);
/** "product:tank" pairs with commas between: which products somebody wants in which tank. */
const moves = z.string().max(1000).regex(/^$|^[A-Za-z0-9_.-]+:[A-D](,[A-Za-z0-9_.-]+:[A-D])*$/, { message: 'product:tank with a tank of A to D, commas between' }).default('')
  .transform((text) => Object.fromEntries(text === '' ? [] : text.split(',').map((pair) => pair.split(':') as [string, string])));
const recipeQuery = z.strictObject({
  crop: id, water: id, table: z.enum(['target', 'feed']).default('target'), moves,
  factor: z.coerce.number().min(10).max(300).default(100),
  tankL: z.coerce.number().min(5).max(10_000).default(200),
});

/** Water: tanks, feeds and balance; mixing sheets of the tanks; concentrates for a crop. */
export function waterRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/water', (): Promise<WaterAnswer> => waterView(desk));
  app.get('/api/water/sheets', (): SheetsAnswer => sheetsView(desk));
  app.get('/api/water/recipe', (request): RecipeAnswer => recipeView(desk, parseOrRefuse(recipeQuery, request.query, 'query')));
}
