import { Link } from '@tanstack/react-router';

export function NothingHere() {
  return <div className="notice"><h1>There is no such page</h1><p>The address may be mistyped. <Link to="/">Go to this morning’s plan.</Link></p></div>;
}
