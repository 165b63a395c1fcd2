import { useQuery } from '@tanstack/react-query';
import { planQuestion } from './questions.ts';

/** What an id of a crop, product, source, station or vehicle is called; the id itself until the desk has said so. */
export function useTitleOf(): (id: string) => string {
  const { data } = useQuery(planQuestion);
  return (id) => data?.titles[id] ?? id;
}
