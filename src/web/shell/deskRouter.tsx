import { createRootRoute, createRoute, createRouter, lazyRouteComponent } from '@tanstack/react-router';
import { MorningPage } from '../morning/MorningPage.tsx';
import { readScanSearch } from '../imaging/scanSearch.ts';
import { NothingHere } from './NothingHere.tsx';
import { Sheet } from './Sheet.tsx';

const root = createRootRoute({ component: Sheet, notFoundComponent: NothingHere });
const morning = createRoute({ getParentRoute: () => root, path: '/', component: MorningPage });
const floor = createRoute({ getParentRoute: () => root, path: '/floor', component: lazyRouteComponent(() => import('../floor/FloorPage.tsx'), 'FloorPage') });
const basin = createRoute({ getParentRoute: () => root, path: '/basin/$id', component: lazyRouteComponent(() => import('../basin/BasinPage.tsx'), 'BasinPage') });
const water = createRoute({ getParentRoute: () => root, path: '/water', component: lazyRouteComponent(() => import('../water/WaterPage.tsx'), 'WaterPage') });
const sheets = createRoute({
  getParentRoute: () => root, path: '/water/sheets', component: lazyRouteComponent(() => import('../water/SheetsPage.tsx'), 'SheetsPage'),
  validateSearch: ({ tank }: Record<string, unknown>): { readonly tank: string | undefined } => ({ tank: typeof tank === 'string' ? tank : undefined }),
});
const recipe = createRoute({ getParentRoute: () => root, path: '/water/recipe', component: lazyRouteComponent(() => import('../water/RecipePage.tsx'), 'RecipePage') });
const orders = createRoute({ getParentRoute: () => root, path: '/orders', component: lazyRouteComponent(() => import('../orders/OrdersPage.tsx'), 'OrdersPage') });
const sowing = createRoute({ getParentRoute: () => root, path: '/sowing', component: lazyRouteComponent(() => import('../sowing/SowingPage.tsx'), 'SowingPage') });
const week = createRoute({ getParentRoute: () => root, path: '/week', component: lazyRouteComponent(() => import('../week/WeekPage.tsx'), 'WeekPage') });
const crop = createRoute({ getParentRoute: () => root, path: '/crop', component: lazyRouteComponent(() => import('../crop/CropPage.tsx'), 'CropPage') });
const lot = createRoute({ getParentRoute: () => root, path: '/lot/$lot', component: lazyRouteComponent(() => import('../crop/LotPage.tsx'), 'LotPage') });
const card = createRoute({ getParentRoute: () => root, path: '/card/$id', component: lazyRouteComponent(() => import('../crop/CardPage.tsx'), 'CardPage') });
const imaging = createRoute({ getParentRoute: () => root, path: '/imaging', component: lazyRouteComponent(() => import('../imaging/ImagingPage.tsx'), 'ImagingPage') });
const scan = createRoute({
  getParentRoute: () => root, path: '/imaging/$basin', component: lazyRouteComponent(() => import('../imaging/ScanPage.tsx'), 'ScanPage'),
  validateSearch: readScanSearch,
});
const wall = createRoute({ getParentRoute: () => root, path: '/wall', component: lazyRouteComponent(() => import('../wall/WallPage.tsx'), 'WallPage') });
const record = createRoute({ getParentRoute: () => root, path: '/record', component: lazyRouteComponent(() => import('../record/RecordPage.tsx'), 'RecordPage') });

/** Every page and its address. */
export const deskRouter = createRouter({ routeTree: root.addChildren([morning, floor, basin, water, sheets, recipe, orders, crop, lot, card, sowing, week, wall, imaging, scan, record]), scrollRestoration: true, defaultPreload: 'intent' });

declare module '@tanstack/react-router' {
  interface Register { router: typeof deskRouter }
}
