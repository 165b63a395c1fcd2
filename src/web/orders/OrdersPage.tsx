export function OrdersPage() { return <h1>OrdersPage</h1>; }
