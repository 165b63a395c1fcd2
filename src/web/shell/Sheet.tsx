import { useQuery } from '@tanstack/react-query';
import { Link, Outlet, useLocation } from '@tanstack/react-router';
import { useEffect, useRef, type RefObject } from 'react';
import { planQuestion } from '../ask/questions.ts';
import { useLive } from '../ask/useLive.ts';
import { clockTime, longDate } from '../words/times.ts';
import { WhoAmI } from './WhoAmI.tsx';
import './shell.css';

const PAGES = [['/', 'This morning'], ['/floor', 'Floor'], ['/water', 'Water'], ['/crop', 'Crop'], ['/orders', 'Orders'], ['/week', 'Two weeks'], ['/sowing', 'Sowing'], ['/imaging', 'Imaging'], ['/record', 'Record']] as const;
const INNER_PAGES: Readonly<Record<string, string>> = { '/wall': 'On the wall', '/water/sheets': 'Mixing sheets', '/water/recipe': 'Concentrates' };

/** Masthead, pages, and whatever page is open. */
export function Sheet() {
  const { connected } = useLive();
  const { data: plan } = useQuery(planQuestion);
  const sheet = plan?.inForce?.sheet ?? plan?.proposal?.sheet;
  usePageTitle(plan?.greenhouse.name);
  const nav = useOpenPageInView();
  const zone = plan?.greenhouse.timeZone ?? 'UTC';
  const isBare = useLocation({ select: (location) => location.pathname === '/wall' });
  const lost = !connected && <p className="lost" role="status">The desk is not heard. What you see is from {plan ? clockTime(plan.nowAt, zone) : 'earlier'} or before; this page tries again by itself.</p>;
  if (isBare) return <main id="content" className="bare">{lost}<Outlet /></main>;
  return (
    <>
      <div className="masthead">
        <div className="masthead-top">
          <p className="masthead-name"><b>{plan?.greenhouse.name ?? 'Watermeadow'}</b>{sheet ? longDate(sheet.date) : '\u00a0'}</p>
          <WhoAmI />
        </div>
        <nav className="pages" aria-label="Pages" ref={nav}>
          {PAGES.map(([to, title]) => <Link key={to} to={to} activeOptions={{ exact: to === '/' }}><span>{title}</span></Link>)}
        </nav>
        {lost}
      </div>
      <main id="content"><Outlet /></main>
    </>
  );
}

/** Names the page and the greenhouse in the title of the window. */
function usePageTitle(greenhouse = 'Watermeadow'): void {
  const path = useLocation({ select: (location) => location.pathname });
  const page = namedPage(path) ?? INNER_PAGES[path] ?? PAGES.find(([to]) => to === path)?.[1] ?? 'No such page';
  useEffect(() => { document.title = `${page} · ${greenhouse}`; }, [page, greenhouse]);
}

/** On a phone the bar of pages is wider than the screen: it scrolls so that the open one is seen. */
function useOpenPageInView(): RefObject<HTMLElement | null> {
  const nav = useRef<HTMLElement>(null);
  const path = useLocation({ select: (location) => location.pathname });
  useEffect(() => {
    const open = [...nav.current?.querySelectorAll('a') ?? []].findLast(({ pathname }) => path.startsWith(pathname));
    if (open && nav.current) nav.current.scrollLeft = open.offsetLeft - (nav.current.clientWidth - open.clientWidth) / 2;
  }, [path]);
  return nav;
}

/** Pages of one thing are named after it. */
function namedPage(path: string): string | undefined {
  const [, kind = '', id = ''] = path.split('/');
  const words = { basin: 'Basin', imaging: 'Scan of basin', lot: 'Lot', card: 'Crop card' }[kind];
  return words === undefined || id === '' ? undefined : `${words} ${decodeURIComponent(id)}`;
}
