import { useQuery } from '@tanstack/react-query';
import type { PlanAnswer } from '../../desk/contract.ts';
import { planQuestion } from './questions.ts';

/** Picked out, so that nobody is drawn again when only the progress of planning changes. */
const titlesOf = ({ titles }: PlanAnswer): PlanAnswer['titles'] => titles;

/** What an id of a crop, product, source, station or vehicle is called; the id itself until the desk has said so. */
export function useTitleOf(): (id: string) => string {
  const { data: titles } = useQuery({ ...planQuestion, select: titlesOf });
  return (id) => titles?.[id] ?? id;
}
