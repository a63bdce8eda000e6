import type { TokenKind } from './syntax.ts';

/** What a LaTeX command (its name without the backslash) stands for; null for one that has no entry. */
export function latexCommand(name: string): LatexCommand | null {
  return COMMANDS.get(name) ?? null;
}

/** What a LaTeX command stands for in a line. */
export type LatexCommand =
  | { readonly kind: 'space' }
  | { readonly kind: 'nothing' }
  /** A command whose braces only dress their content: the token inside stands for the whole. */
  | { readonly kind: 'wrapper' }
  | { readonly kind: 'token'; readonly token: TokenKind; readonly text: string }
  | { readonly kind: 'fraction' }
  | { readonly kind: 'root' };

function operators(text: string, ...names: string[]): [string, LatexCommand][] {
  return names.map(name => [name, { kind: 'token', token: 'operator', text }]);
}

function commands(command: LatexCommand, ...names: string[]): [string, LatexCommand][] {
  return names.map(name => [name, command]);
}

const COMMANDS: ReadonlyMap<string, LatexCommand> = new Map([
  ...commands({ kind: 'space' }, ',', ';', ':', '!', ' ', '>', '/', '\\', 'quad', 'qquad', 'hfill'),
  ...commands({ kind: 'space' }, 'thinspace', 'medspace', 'enspace', 'space', 'newline'),
  ...commands({ kind: 'nothing' }, 'left', 'right', 'big', 'Big', 'bigg', 'Bigg', 'bigl', 'bigr'),
  ...commands({ kind: 'nothing' }, 'Bigl', 'Bigr', 'biggl', 'biggr', 'displaystyle', 'textstyle', 'limits'),
  ...commands({ kind: 'nothing' }, '(', ')', '[', ']'),
  ...commands({ kind: 'wrapper' }, 'text', 'textrm', 'textbf', 'textit', 'textsf', 'mathrm', 'mathbf'),
  ...commands({ kind: 'wrapper' }, 'mathit', 'mathsf', 'boldsymbol', 'bm', 'mbox', 'hbox', 'operatorname'),
  ...commands(
    { kind: 'wrapper' },
    'boxed',
    'underline',
    'emph',
    'rm',
    'bf',
    'it',
    'unit',
    'si',
    'num',
    'SI',
    'qty',
  ),
  ...commands({ kind: 'fraction' }, 'frac', 'dfrac', 'tfrac', 'cfrac', 'nicefrac', 'sfrac'),
  ...commands({ kind: 'root' }, 'sqrt'),
  ...operators('×', 'times', 'cdot', 'ast', 'bullet'),
  ...operators('/', 'div', 'slash'),
  ...operators('±', 'pm'),
  ...operators('≈', 'approx', 'simeq', 'cong', 'approxeq'),
  ...operators('≤', 'le', 'leq', 'leqslant'),
  ...operators('≥', 'ge', 'geq', 'geqslant'),
  ...operators('≠', 'ne', 'neq'),
  ...operators('⇒', 'Rightarrow', 'implies', 'therefore', 'Longrightarrow'),
  ...operators('|', 'vert', 'lvert', 'rvert', 'mid', '|'),
  ...operators('…', 'dots', 'ldots', 'cdots'),
  ...operators('(', '{', 'lbrace'),
  ...operators(')', '}', 'rbrace'),
  ...operators('#', '#'),
  ...operators('&', '&'),
  ...operators('-', '-'),
  ['%', { kind: 'token', token: 'percent', text: '%' }],
  ...commands({ kind: 'token', token: 'degree', text: '°' }, 'degree', 'circ', 'textdegree', 'ang'),
  ['prime', { kind: 'token', token: 'prime', text: '′' }],
  ['dprime', { kind: 'token', token: 'prime', text: '″' }],
]);
