export function BasinPage() { return <h1>BasinPage</h1>; }
