import { useQuery } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import { createPortal } from 'react-dom';
import { sourceQuestion } from '../ask/questions.ts';
import { Asked } from './Asked.tsx';

/** A small control beside a figure that shows where it came from. `of` names the figure for those who cannot see it. */
export function Why({ source, of }: { readonly source: string; readonly of: string }) {
  const [open, setOpen] = useState(false);
  return (
    <>
      <button type="button" className="why no-print" aria-haspopup="dialog" aria-label={`Where does this come from: ${of}`} onClick={() => setOpen(true)}>why</button>
      {open && <SourceSheet source={source} of={of} close={() => setOpen(false)} />}
    </>
  );
}

function SourceSheet({ source, of, close }: { readonly source: string; readonly of: string; readonly close: () => void }) {
  const box = useRef<HTMLDialogElement>(null);
  const query = useQuery(sourceQuestion(source));
  useEffect(() => { if (!box.current?.open) box.current?.showModal(); }, []);
  return createPortal(
    <dialog ref={box} onClose={close} aria-label={`Where this comes from: ${of}`}>
      <Asked query={query} what="the source of this figure">
        {({ source: is }) => (
          <>
            <h2>{is.title}</h2>
            <p className="soft">{of}</p>
            <p>{is.method}</p>
            <dl>
              {is.model && <><dt>Model</dt><dd>{is.model}{is.version ? `, version ${is.version}` : ''}</dd></>}
              <dt>Computed from</dt>{is.inputs.map((input) => <dd key={input}>{input}</dd>)}
              <dt>Sources</dt>{is.citations.length === 0 ? <dd>none</dd> : is.citations.map((citation) => <dd key={citation}>{citation}</dd>)}
            </dl>
          </>
        )}
      </Asked>
      <p><button type="button" onClick={() => box.current?.close()}>Close</button></p>
    </dialog>,
    document.body,
  );
}
