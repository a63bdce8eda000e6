import { isCounted, isUnit, openingOf } from './head-unit.ts';
import { readLeftSide } from './left-side.ts';
import type { Token } from './syntax.ts';

/** The two sides of a statement. */
export interface Sides {
  readonly left: readonly Token[];
  readonly right: readonly Token[];
}

/**
 * Takes a unit in brackets off a statement's name and lets it measure the numbers that have none.
 *
 *     diameter (mm): 12.46        V (cm^3) = pi D^3/6 = 1.013        T (s): 2.63, 2.56, 2.42
 *              ^^^^ 12.46 mm                            1.013 cm^3                       2.42 s
 *
 * Behind words a single letter may as well be the symbol, `mass (m): 8.25`, so it is left. A value that has its unit
 * keeps it. What is read on a scale may count its divisions, `CSR (div): 45`.
 */
export function withLeftUnit(left: readonly Token[], right: readonly Token[]): Sides {
  const open = openingOf(left);
  const unit = open > 0 ? left.slice(open + 1, -1) : [];
  const isCount = isCounted(unit);
  if (!isUnit(unit) && !isCount) return { left, right };
  const name = left.slice(0, open);
  const side = readLeftSide(name);
  if (isCount && (side.kind !== 'term' || side.term.kind !== 'observable')) return { left, right };
  // Beside a symbol it is no second one.
  if (isLetter(unit) && !isLetter(name) && !(side.kind === 'own' && side.symbol !== null))
    return { left, right };
  const isNamed =
    side.kind === 'own' ||
    side.kind === 'reference' ||
    (side.kind === 'term' && MEASURED.has(side.term.kind));
  if (!isNamed) return { left, right };
  // The number of a line counts nothing but lines.
  const isMark = side.kind === 'term' && /^(?:main|linear) scale reading$/.test(side.term.name);
  const measure = isCount ? unit.filter(({ kind }) => isMark && kind === 'word') : unit;
  return { left: name, right: isBare(right) ? [...right, ...behind(measure, right)] : right };
}

const MEASURED: ReadonlySet<string> = new Set(['observable', 'computed', 'statistic', 'division']);

function isLetter([first, ...others]: readonly Token[]): boolean {
  return others.length === 0 && first?.kind === 'word' && /^[A-Za-z]$/.test(first.text);
}

/** Whether the last link is made of numbers that nothing measures yet. */
function isBare(right: readonly Token[]): boolean {
  const sign = right.findLastIndex(({ kind, text }) => kind === 'operator' && /^[=≈]$/.test(text));
  const last = right.slice(sign + 1);
  return (
    last.some(({ kind }) => kind === 'number') &&
    last.every(({ kind, text }) => kind === 'number' || kind === 'superscript' || OPERATORS.test(text))
  );
}

const OPERATORS = /^[-+×/^().,;±]$/;

/** The unit where the last token ends, so that no place of the note is said to hold it. */
function behind(unit: readonly Token[], right: readonly Token[]): readonly Token[] {
  const { end } = right[right.length - 1]!.span;
  return unit.map((token, index) => ({
    ...token,
    spaced: index === 0 || token.spaced,
    span: { start: end, end },
  }));
}
