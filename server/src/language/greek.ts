/** The name that a Greek letter is spelt with (`ρ` is `rho`), or null for any other character. */
export function greekName(letter: string): string | null {
  return letter < '\u0080' ? null : (NAMES.get(letter) ?? null);
}

/** Whether a word is the spelt name of a Greek letter: what LaTeX writes behind its backslash. */
export function isGreekName(word: string): boolean {
  return SPELT.has(word);
}

/** The capital omega is left out: among measurements it is the ohm. */
const NAMES: ReadonlyMap<string, string> = new Map([
  ['α', 'alpha'],
  ['β', 'beta'],
  ['γ', 'gamma'],
  ['δ', 'delta'],
  ['ε', 'epsilon'],
  ['ϵ', 'epsilon'],
  ['ζ', 'zeta'],
  ['η', 'eta'],
  ['θ', 'theta'],
  ['ϑ', 'theta'],
  ['ι', 'iota'],
  ['κ', 'kappa'],
  ['ϰ', 'kappa'],
  ['λ', 'lambda'],
  ['μ', 'mu'],
  ['µ', 'mu'],
  ['ν', 'nu'],
  ['ξ', 'xi'],
  ['ο', 'omicron'],
  ['π', 'pi'],
  ['ϖ', 'pi'],
  ['ρ', 'rho'],
  ['ϱ', 'rho'],
  ['σ', 'sigma'],
  ['ς', 'sigma'],
  ['τ', 'tau'],
  ['υ', 'upsilon'],
  ['φ', 'phi'],
  ['ϕ', 'phi'],
  ['χ', 'chi'],
  ['ψ', 'psi'],
  ['ω', 'omega'],
  ['Α', 'Alpha'],
  ['Β', 'Beta'],
  ['Γ', 'Gamma'],
  ['Δ', 'Delta'],
  ['∆', 'Delta'],
  ['Ε', 'Epsilon'],
  ['Ζ', 'Zeta'],
  ['Η', 'Eta'],
  ['Θ', 'Theta'],
  ['Ι', 'Iota'],
  ['Κ', 'Kappa'],
  ['Λ', 'Lambda'],
  ['Μ', 'Mu'],
  ['Ν', 'Nu'],
  ['Ξ', 'Xi'],
  ['Ο', 'Omicron'],
  ['Π', 'Pi'],
  ['Ρ', 'Rho'],
  ['Σ', 'Sigma'],
  ['Τ', 'Tau'],
  ['Υ', 'Upsilon'],
  ['Φ', 'Phi'],
  ['Χ', 'Chi'],
  ['Ψ', 'Psi'],
]);

const SPELT: ReadonlySet<string> = new Set(NAMES.values());
