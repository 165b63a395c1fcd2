import { useId, type ReactNode } from 'react';

/** A headed part of a page. */
export function Section({ title, aside, children, className = '' }: { readonly title: string; readonly aside?: ReactNode; readonly children: ReactNode; readonly className?: string }) {
  const id = useId();
  return (
    <section className={`section ${className}`} aria-labelledby={id}>
      <header><h2 id={id}>{title}</h2>{aside !== undefined && <p>{aside}</p>}</header>
      {children}
    </section>
  );
}
