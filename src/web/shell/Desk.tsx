import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { Refused } from '../ask/askDesk.ts';
import { deskRouter } from './deskRouter.tsx';

const cache = new QueryClient({
  defaultOptions: { queries: { staleTime: 30_000, refetchOnWindowFocus: true, retry: (failures, error) => !(error instanceof Refused) && failures < 2 } },
});

/** The whole of the pages. */
export function Desk() {
  return <QueryClientProvider client={cache}><RouterProvider router={deskRouter} /></QueryClientProvider>;
}
