import { Failed, Refused } from '../ask/askDesk.ts';

/** What went wrong, in the desk's own words, and what helps. */
export function Trouble({ error, again }: { readonly error: Error; readonly again?: () => void }) {
  return (
    <div className="notice" role="alert">
      <p><b>{error instanceof Refused ? 'This cannot be done' : 'Something failed'}</b></p>
      {error instanceof Refused
        ? <ul>{error.refusals.map((is) => <li key={`${is.path}${is.message}`}>{is.message}</li>)}</ul>
        : <p>{error.message}{error instanceof Failed && !error.retryHelps ? ' Trying again will not help.' : ''}</p>}
      {again && !(error instanceof Refused) && <button type="button" onClick={again}>Try again</button>}
    </div>
  );
}
