import { Link } from '@tanstack/react-router';

/** A basin's number; leads to its page. */
export function BasinLink({ basin }: { readonly basin: string }) {
  return <Link to="/basin/$id" params={{ id: basin }} className="basin-link" aria-label={`Basin ${basin}`}>{basin}</Link>;
}
