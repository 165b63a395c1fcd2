import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { Fragment } from 'react';
import { imagingQuestion } from '../ask/questions.ts';
import { NEWEST_SCAN } from './scanSearch.ts';

const MOST = 4;

/** Where a basin, or the basins of a lot, can be looked at from above; nothing where no scan shows them. */
export function ScanLinks({ basin, lot }: { readonly basin?: string; readonly lot?: string }) {
  const { data } = useQuery(imagingQuestion);
  const seen = (data?.basins ?? []).filter((is) => is.basin === basin || (lot !== undefined && is.latest.lot === lot));
  if (seen.length === 0) return null;
  return (
    <p className="proposal no-print">Seen from above: {seen.slice(0, MOST).map((is, i) => (
      <Fragment key={is.basin}>{i > 0 && ', '}<Link to="/imaging/$basin" params={{ basin: is.basin }} search={NEWEST_SCAN} preload={false}>scan of {is.basin}</Link>{is.latest.toLookAt > 0 && ` (${is.latest.toLookAt} to look at)`}</Fragment>
    ))}{seen.length > MOST && ` and ${seen.length - MOST} more`}</p>
  );
}
