/** Signs that say a status by their shape; the word always stands beside them. */
export type SignShape = 'flag' | 'diamond' | 'ring' | 'tick' | 'cross' | 'dot' | 'half';

const SHAPES: Readonly<Record<SignShape, React.ReactNode>> = {
  flag: <path d="M2 14V2h11l-3.500 3.500L13 9H4v5z" fill="currentColor" />,
  diamond: <path d="M8 1.500 14.500 8 8 14.500 1.500 8z" fill="none" stroke="currentColor" strokeWidth="2" />,
  ring: <circle cx="8" cy="8" r="5.500" fill="none" stroke="currentColor" strokeWidth="2" />,
  tick: <path d="m2 8.500 4 4.500 8-10" fill="none" stroke="currentColor" strokeWidth="2.500" />,
  cross: <path d="m3 3 10 10M13 3 3 13" fill="none" stroke="currentColor" strokeWidth="2.500" />,
  dot: <circle cx="8" cy="8" r="3.500" fill="currentColor" />,
  half: <><circle cx="8" cy="8" r="5.500" fill="none" stroke="currentColor" strokeWidth="2" /><path d="M8 2.500a5.500 5.500 0 0 1 0 11z" fill="currentColor" /></>,
};

export function Sign({ shape }: { readonly shape: SignShape }) {
  return <svg className="sign" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">{SHAPES[shape]}</svg>;
}

/** A status: shape and word together. */
export function Status({ shape, children }: { readonly shape: SignShape; readonly children: React.ReactNode }) {
  return <span className="status"><Sign shape={shape} />{children}</span>;
}
