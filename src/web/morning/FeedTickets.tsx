import { useLocation } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import type { FeedTicket, SheetVisit } from '../../desk/contract.ts';
import { Hours } from '../parts/Hours.tsx';
import { Section } from '../parts/Section.tsx';
import { TicketSheet } from './TicketSheet.tsx';

interface Props { readonly feeds: readonly FeedTicket[]; readonly visits: readonly SheetVisit[]; readonly nowAt: string; readonly zone: string; readonly currency: string }

/** The feed tickets in the order in which their basins come to be filled. */
export function FeedTickets({ feeds, visits, nowAt, zone, currency }: Props) {
  const asked = useLocation({ select: ({ hash }) => hash.replace(/^ticket-/, '') });
  const [open, setOpen] = useState<ReadonlySet<string>>(new Set(asked === '' ? [] : [asked]));
  useEffect(() => { if (asked !== '') document.getElementById(`ticket-${asked}`)?.scrollIntoView(); }, [asked]);
  const startOf = new Map(visits.flatMap((visit) => visit.stops.filter((stop) => stop.kind === 'filling').map((stop) => [visit.feedTicket ?? '', stop.startAt] as const)));
  const sorted = [...feeds].sort((a, b) => ((startOf.get(a.ticket) ?? '~') < (startOf.get(b.ticket) ?? '~') ? -1 : 1));
  const all = open.size === feeds.length;
  const toggle = (ticket: string) => setOpen(new Set(open.has(ticket) ? [...open].filter((is) => is !== ticket) : [...open, ticket]));
  if (feeds.length === 0) return <Section title="Feed tickets"><p>No basin is filled today.</p></Section>;
  return (
    <Section title="Feed tickets" aside={`${feeds.length}, in the order of filling`} className="tickets">
      <div className="choices no-print">
        <button type="button" onClick={() => setOpen(all ? new Set() : new Set(feeds.map((is) => is.ticket)))}>{all ? 'Close all tickets' : 'Open all tickets'}</button>
        <button type="button" onClick={() => window.print()}>Print plan and tickets</button>
      </div>
      <Hours items={sorted} beginsAt={(feed) => startOf.get(feed.ticket) ?? nowAt} nowAt={nowAt} zone={zone} one="ticket" asked={(feed) => feed.ticket === asked}>
        {(tickets) => tickets.map((feed) => <TicketSheet key={feed.ticket} feed={feed} startAt={startOf.get(feed.ticket)} zone={zone} currency={currency} open={open.has(feed.ticket)} toggle={() => toggle(feed.ticket)} />)}
      </Hours>
    </Section>
  );
}
