import { unitWord } from '../engine/unit.ts';
import { tokensText } from './statement-dress.ts';
import type { Token } from './syntax.ts';
import { isUnitHyphen } from './unit-parser.ts';

/** A column's name and what it is measured in. */
export interface Split {
  readonly name: readonly Token[];
  readonly unit: readonly Token[];
  /** `div`, `no.`: what is counted, where no unit stands. */
  readonly counts: readonly Token[];
}

const COUNTS =
  /^(?:scale )?(?:divs?|divisions?|nos?|number|lines?|turns?|rotations?|[mlpchv]sd)\.?(?: of (?:divs?|divisions?)\.?)?$/i;

/** Takes what a column is measured in off its name: `LSR (mm)`, `T / s`, `CSR (div)`. */
export function splitUnit(tokens: readonly Token[]): Split {
  const open = openingOf(tokens);
  if (open > 0) {
    const isStroke = tokens[open - 1]!.text === '/';
    const name = tokens.slice(0, isStroke ? open - 1 : open);
    const inside = withoutIn(tokens.slice(open + 1, -1));
    if (isUnit(inside)) return { name, unit: inside, counts: [] };
    if (isCounted(inside)) return { name, unit: [], counts: inside.filter(({ kind }) => kind === 'word') };
  }
  const slash = tokens.findIndex(
    token => token.kind === 'operator' && (token.text === '/' || token.text === ','),
  );
  const after = withoutIn(tokens.slice(slash + 1));
  if (slash > 0) {
    const name = tokens.slice(0, slash);
    if (after[0]?.kind === 'word' && isUnit(after)) return { name, unit: after, counts: [] };
    if (isCounted(after)) return { name, unit: [], counts: after.filter(({ kind }) => kind === 'word') };
  }
  return { name: tokens, unit: [], counts: [] };
}

/** `div`, `divisions`, `no.`: counted, not measured. */
export function isCounted(tokens: readonly Token[]): boolean {
  return COUNTS.test(tokensText(tokens));
}

/** Units, their powers and quotients, and nothing else. */
export function isUnit(tokens: readonly Token[]): boolean {
  const [first] = tokens;
  if (first === undefined || first.kind === 'number' || first.kind === 'operator') return false;
  return tokens.every((token, index) => {
    switch (token.kind) {
      case 'word':
        return unitWord(token.text) !== null;
      case 'number':
        return /^[-^]$/.test(tokens[index - 1]!.text);
      case 'operator':
        return token.text === '-'
          ? tokens[index - 1]!.text === '^' || isUnitHyphen(tokens, index)
          : /^[/·×^()]$/.test(token.text);
      default:
        return true;
    }
  });
}

/** `(in mm)` measures in millimetres, not in inches times millimetres. */
function withoutIn(tokens: readonly Token[]): readonly Token[] {
  return tokens.length > 1 && /^in$/i.test(tokens[0]!.text) ? tokens.slice(1) : tokens;
}

/** Where the bracket opens that the last token closes; -1 where it closes none. */
export function openingOf(tokens: readonly Token[]): number {
  let depth = 0;
  for (let index = tokens.length - 1; index >= 0; index--) {
    const { kind, text } = tokens[index]!;
    if (kind === 'operator' && (text === ')' || text === ']')) depth += 1;
    else if (kind === 'operator' && (text === '(' || text === '[')) depth -= 1;
    if (depth === 0) return index === tokens.length - 1 ? -1 : index;
  }
  return -1;
}
