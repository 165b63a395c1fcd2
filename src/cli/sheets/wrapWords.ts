/** Breaks a text into lines of at most `width` characters, each after `indent`; a word that is longer stands on its own line. */
export function wrapWords(text: string, width: number, indent = ''): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    if (line !== '' && indent.length + line.length + 1 + word.length > width) { lines.push(line); line = ''; }
    line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].map((each) => `${indent}${each}`).join('\n');
}
