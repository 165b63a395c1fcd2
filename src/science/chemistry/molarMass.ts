/** Standard atomic weights, abridged to five figures, g/mol. Source: IUPAC (Prohaska et al. 2022, Pure Appl. Chem. 94, 573, table 2). */
export const ATOMIC_MASS_G_PER_MOL: Readonly<Record<string, number>> = {
  H: 1.008, B: 10.81, C: 12.011, N: 14.007, O: 15.999, Na: 22.99, Mg: 24.305, Si: 28.085, P: 30.974, S: 32.06,
  Cl: 35.45, K: 39.098, Ca: 40.078, Mn: 54.938, Fe: 55.845, Cu: 63.546, Zn: 65.38, Mo: 95.95,
};

/**
 * Molar mass of a formula as printed on a bag, in g/mol: brackets, and water or other parts after a raised dot
 * ("Ca(NO3)2·4H2O", "5Ca(NO3)2·NH4NO3·10H2O"). Throws on an element that is not in the table: formulas are ours, not input.
 */
export function molarMassGPerMol(formula: string): number {
  return formula.split('·').reduce((sum, part) => sum + massOfPart(part), 0);
}

function massOfPart(part: string): number {
  const [, multiple = '', body = ''] = /^(\d*)(.*)$/.exec(part) ?? [];
  const tokens = body.match(/[A-Z][a-z]?|\d+|[()]/g) ?? [];
  if (tokens.join('') !== body || body === '') throw new Error(`not a chemical formula: ${part}`);
  return count(multiple) * massOfTokens(tokens);
}

/** One pass with a stack: each open bracket starts a new sum, each closing bracket adds it, times its count, to the sum outside. */
function massOfTokens(tokens: readonly string[]): number {
  const sums: number[] = [0];
  tokens.forEach((token, index) => {
    if (token === '(') return void sums.push(0);
    if (/^\d/.test(token)) return;
    const mass = token === ')' ? (sums.pop() ?? 0) : atomicMass(token);
    sums.push((sums.pop() ?? 0) + mass * count(tokens[index + 1]));
  });
  return sums.reduce((a, b) => a + b, 0);
}

function atomicMass(symbol: string): number {
  const mass = ATOMIC_MASS_G_PER_MOL[symbol];
  if (mass === undefined) throw new Error(`no atomic mass for ${symbol}`);
  return mass;
}

const count = (digits: string | undefined): number => (digits !== undefined && /^\d+$/.test(digits) ? Number(digits) : 1);
