export function FloorPage() { return <h1>FloorPage</h1>; }
