import { createRootRoute, createRoute, createRouter, lazyRouteComponent } from '@tanstack/react-router';
import { MorningPage } from '../morning/MorningPage.tsx';
import { NothingHere } from './NothingHere.tsx';
import { Sheet } from './Sheet.tsx';

const root = createRootRoute({ component: Sheet, notFoundComponent: NothingHere });
const morning = createRoute({ getParentRoute: () => root, path: '/', component: MorningPage });
const floor = createRoute({ getParentRoute: () => root, path: '/floor', component: lazyRouteComponent(() => import('../floor/FloorPage.tsx'), 'FloorPage') });
const basin = createRoute({ getParentRoute: () => root, path: '/basin/$id', component: lazyRouteComponent(() => import('../basin/BasinPage.tsx'), 'BasinPage') });
const orders = createRoute({ getParentRoute: () => root, path: '/orders', component: lazyRouteComponent(() => import('../orders/OrdersPage.tsx'), 'OrdersPage') });
const record = createRoute({ getParentRoute: () => root, path: '/record', component: lazyRouteComponent(() => import('../record/RecordPage.tsx'), 'RecordPage') });

/** Every page and its address. */
export const deskRouter = createRouter({ routeTree: root.addChildren([morning, floor, basin, orders, record]), scrollRestoration: true, defaultPreload: 'intent' });

declare module '@tanstack/react-router' {
  interface Register { router: typeof deskRouter }
}
