/** 1 1 2 1 1 2 4 1 1 2 1 1 2 4 8 ... from index 0 (Luby, Sinclair & Zuckerman 1993, Information Processing Letters 47:173-180). */
export function luby(index: number): number {
  let size = 1, power = 0;
  while (size < index + 1) { size = 2 * size + 1; power += 1; }
  for (let i = index; size - 1 !== i; ) { size = (size - 1) >> 1; power -= 1; i %= size; }
  return 2 ** power;
}
