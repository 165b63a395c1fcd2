export function RecordPage() { return <h1>RecordPage</h1>; }
