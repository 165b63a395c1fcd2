import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { Trouble } from './Trouble.tsx';

/** Shows an answer once it is there; until then says what is being fetched, or what went wrong. */
export function Asked<T>({ query, what, children }: { readonly query: UseQueryResult<T>; readonly what: string; readonly children: (answer: T) => ReactNode }) {
  if (query.data !== undefined) return <>{query.error && <Trouble error={query.error} again={() => void query.refetch()} />}{children(query.data)}</>;
  if (query.error) return <Trouble error={query.error} again={() => void query.refetch()} />;
  return <p className="soft" role="status">Fetching {what} …</p>;
}
