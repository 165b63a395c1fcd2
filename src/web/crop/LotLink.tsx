import { Link } from '@tanstack/react-router';

/** A lot's code; leads to its page. */
export function LotLink({ lot }: { readonly lot: string }) {
  return <Link to="/lot/$lot" params={{ lot }} className="lot-link" aria-label={`Lot ${lot}`}>{lot}</Link>;
}
