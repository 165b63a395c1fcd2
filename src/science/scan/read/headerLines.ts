/** A line of a text header and where the bytes after it begin. */
export interface HeaderLine {
  readonly text: string;
  /** Counted from 1. */
  readonly number: number;
  readonly nextByte: number;
  /** The byte that ends it: LF, or CR in a file that has only these. */
  readonly lineEnd: number;
}

const NEWLINE = 10;
const RETURN = 13;

/** Splits the text header at the start of a file into lines, as far as asked for. The first line end (LF, CR LF or CR) is that of all. */
export function* headerLines(head: Uint8Array): Generator<HeaderLine> {
  const end = lineEnd(head);
  let from = 0;
  for (let number = 1; ; number += 1) {
    const at = end === undefined ? -1 : head.indexOf(end.last, from);
    if (end === undefined || at < 0) return;
    yield { text: latin1(head.subarray(from, at)).replace(/\r$/, ''), number, nextByte: at + 1, lineEnd: end.last };
    from = at + 1;
  }
}

function lineEnd(head: Uint8Array): { readonly last: number } | undefined {
  const first = head.findIndex((byte) => byte === NEWLINE || byte === RETURN);
  if (first < 0) return undefined;
  return { last: head[first] === RETURN && head[first + 1] !== NEWLINE ? RETURN : NEWLINE };
}

/** Each byte one character; whatever a header holds, this reads it. */
export function latin1(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return text;
}
