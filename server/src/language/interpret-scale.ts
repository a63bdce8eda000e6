import { plainNumber, visit } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as R from '../engine/rational.ts';
import { type Draft, leaveUnread, replaceFix, report } from './draft.ts';
import type { Stated, Subject } from './measurement.ts';
import { mend } from './mend.ts';
import { subjectKey } from './names.ts';
import { isSign, tokensSpan } from './parser.ts';
import type { NameTable } from './parser-state.ts';
import { readStated } from './stated.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';
import type { DivisionTerm, ScaleTerm } from './term-names.ts';

const OWN_DIVISION: Readonly<Record<ScaleTerm, DivisionTerm>> = {
  'main scale': 'main scale division',
  'vernier scale': 'vernier scale division',
  'linear scale': 'linear scale division',
  'circular scale': 'circular scale division',
  screw: 'rotation',
};

/** The scale that stands behind each: what `divisions` means on the other side of its equation. */
function coarserDivision(scale: ScaleTerm, draft: Draft): DivisionTerm | null {
  switch (scale) {
    case 'vernier scale':
      return draft.isScrew ? 'circular scale division' : 'main scale division';
    case 'circular scale':
      return 'linear scale division';
    case 'linear scale':
    case 'main scale':
    case 'screw':
      return null;
  }
}

/**
 * Reads a scale record: `1 cm = 20 MSD`, a chain of such sides, or `50 divisions` alone (how many lines it has).
 *
 * On a scale's own line `divisions` means that scale's; in `10 divisions = 9 divisions` the right side means the
 * coarser scale's, and that is said.
 */
export function interpretScale(draft: Draft, scale: ScaleTerm, right: readonly Token[], span: Span): void {
  const sides = splitAt(withDivisionLetters(draft, right)).map(side => withNumberWords(side));
  const main = sides[0];
  const threads = scale === 'screw' && sides.length === 1 ? threadsPerLength(tokensText(right)) : null;
  if (threads !== null) {
    mend(draft, span, 'the screw needs an equation: so many rotations make a length', `screw: ${threads}`);
    return;
  }
  if (main === undefined || main.length === 0) {
    leaveUnread(draft, scale);
    report(
      draft,
      'unreadable-line',
      span,
      `the ${scale} says nothing behind its colon; write what its divisions make, as in ${exampleOf(scale)}`,
    );
    return;
  }
  if (sides.length === 1) {
    interpretCount(draft, scale, main, span);
    return;
  }
  const saysOwn = sides.filter(side => hasGeneric(side)).length;
  const read: Stated[] = [];
  for (const [index, side] of sides.entries()) {
    if (side.length === 0) {
      leaveUnread(draft, scale);
      report(draft, 'unreadable-line', signBefore(right, index) ?? span, NOTHING_BEHIND);
      return;
    }
    const useCoarser = saysOwn > 1 && index > 0 && hasGeneric(side);
    const division = useCoarser ? coarserDivision(scale, draft) : OWN_DIVISION[scale];
    if (division === null) {
      leaveUnread(draft, scale);
      report(
        draft,
        'ambiguous-expression',
        tokensSpan(side),
        'both sides say divisions; say which scale is meant on this side',
      );
      return;
    }
    if (useCoarser) sayCoarser(draft, side, division);
    const stated = readStated(draft, side, {
      mode: 'link',
      isRecord: true,
      names: withDivisions(draft, division),
    });
    if (stated === null) {
      leaveUnread(draft, scale);
      return;
    }
    read.push(stated);
  }
  draft.scales.push({ scale, sides: read, span });
}

/** `50 divisions`, `100`, `50 CSD`: how many the scale has. */
function interpretCount(draft: Draft, scale: ScaleTerm, tokens: readonly Token[], span: Span): void {
  const stated = readStated(draft, withoutDivisionWord(tokens), {
    mode: 'link',
    isRecord: true,
    names: withDivisions(draft, OWN_DIVISION[scale]),
  });
  if (stated === null) {
    leaveUnread(draft, scale);
    return;
  }
  if (stated.hasUnit) {
    lengthForScale(draft, scale, tokens, span);
    return;
  }
  if (
    stated.expression.kind === 'literal' &&
    R.compare(plainNumber(stated.expression.quantity) ?? R.ONE, R.ONE) < 0
  ) {
    report(
      draft,
      'unreadable-line',
      stated.span,
      `a scale has at least one division, so ${stated.text} cannot be how many the ${scale} has`,
    );
    leaveUnread(draft, scale);
    return;
  }
  if (draft.counts.has(scale)) {
    report(
      draft,
      'duplicate-name',
      span,
      `the number of divisions of the ${scale} is already recorded above; the first record stands`,
    );
    return;
  }
  draft.counts.set(scale, stated);
}

/** `main scale: 1.2 cm` is a reading; `screw: 0.5 mm` is its pitch. */
function lengthForScale(draft: Draft, scale: ScaleTerm, tokens: readonly Token[], span: Span): void {
  const value = tokensText(tokens);
  const meant: Readonly<Record<ScaleTerm, string>> = {
    'main scale': `main scale reading: ${value}`,
    'linear scale': `linear scale reading: ${value}`,
    'vernier scale': `vernier scale: 1 VSD = ${value}`,
    'circular scale': `circular scale: 1 CSD = ${value}`,
    screw: `screw: 1 rotation = ${value}`,
  };
  mend(
    draft,
    span,
    `the ${scale} needs an equation such as ${exampleOf(scale)}; ${value} alone reads like ${meant[scale]}`,
    meant[scale],
  );
}

/** `40 threads per inch`: 40 rotations make one; null for anything else. */
function threadsPerLength(text: string): string | null {
  const [, count, unit] =
    /^(\d+) (?:threads?|turns?|rotations?|tpi)(?: ?(?:per|\/|to (?:the|an?)) ?(inch|in|cm|mm))?\.?$/i.exec(
      text,
    ) ?? [];
  if (count === undefined || (unit === undefined && !/tpi$/i.test(text))) return null;
  return `${count} rotations = 1 ${unit === undefined || /^inch$/i.test(unit) ? 'in' : unit}`;
}

function exampleOf(scale: ScaleTerm): string {
  switch (scale) {
    case 'main scale':
      return '1 cm = 20 MSD';
    case 'vernier scale':
      return '25 VSD = 24 MSD';
    case 'linear scale':
      return '1 mm = 2 LSD';
    case 'circular scale':
      return '50 divisions';
    case 'screw':
      return '5 rotations = 2.5 mm';
  }
}

const GENERIC = /^(?:divisions?|divs?|parts?|lines?)$/i;

function isGeneric(tokens: readonly Token[], index: number): boolean {
  const before = tokens[index - 1];
  const token = tokens[index]!;
  // `main scale divisions` is a name by itself; a lone `divisions` follows a number or a bracket.
  return (
    token.kind === 'word' &&
    GENERIC.test(token.text) &&
    (before === undefined || before.kind !== 'word' || before.text.length < 3)
  );
}

function hasGeneric(tokens: readonly Token[]): boolean {
  return tokens.some((_, index) => isGeneric(tokens, index));
}

function withoutDivisionWord(tokens: readonly Token[]): readonly Token[] {
  const last = tokens[tokens.length - 1];
  if (last === undefined || tokens.length < 2) return tokens;
  if (isGeneric(tokens, tokens.length - 1)) return tokens.slice(0, -1);
  return /^(?:VSD|CSD|MSD|LSD|HSD|PSD)$/.test(last.text) ? tokens.slice(0, -1) : tokens;
}

/** The block's names, with the word `divisions` standing for one scale's. */
function withDivisions(draft: Draft, division: DivisionTerm): NameTable {
  const subject: Subject = { kind: 'division', division, block: null };
  const key = subjectKey(subject);
  return {
    longestName(tokens, index) {
      const named = draft.table.longestName(tokens, index);
      if (named !== null) return named;
      if (!isGeneric(tokens, index)) return null;
      (draft.table.subjects as Map<string, Subject>).set(key, subject);
      return { key, length: 1, text: division };
    },
  };
}

function sayCoarser(draft: Draft, side: readonly Token[], division: DivisionTerm): void {
  const at = side.findIndex((_, index) => isGeneric(side, index));
  const token = side[at]!;
  const short =
    division === 'main scale division' ? 'MSD' : division === 'circular scale division' ? 'CSD' : 'LSD';
  report(
    draft,
    'not-plain',
    token.span,
    `both sides say divisions; on this side those of the coarser scale are taken (${division}s)`,
    [replaceFix(`Write ${short}`, token.span, short, true)],
  );
}

/** The parts of a chain between its equals signs. */
export function splitAt(tokens: readonly Token[]): readonly (readonly Token[])[] {
  const parts: Token[][] = [[]];
  let depth = 0;
  for (const token of tokens) {
    if (isSign(token, '(')) depth += 1;
    else if (isSign(token, ')')) depth -= 1;
    if (depth <= 0 && (isSign(token, '=') || isSign(token, '≈'))) parts.push([]);
    else parts[parts.length - 1]!.push(token);
  }
  return parts;
}

/** `25 V = 24 S`: behind a number in a line about the scales these letters count divisions, not volts and siemens. */
export function withDivisionLetters(draft: Draft, tokens: readonly Token[]): readonly Token[] {
  return tokens.map((token, index) => {
    const short = token.kind === 'word' ? DIVISION_LETTERS.get(token.text) : undefined;
    const next = tokens[index + 1];
    // The V of `25 V.S.D.` begins a longer name.
    const isAlone = next === undefined || next.spaced || next.text !== '.';
    const isCounted = tokens[index - 1]?.kind === 'number' && isAlone;
    return short === undefined || !isCounted || draft.names.here.own.has(token.text)
      ? token
      : { ...token, text: short };
  });
}

const DIVISION_LETTERS: ReadonlyMap<string, string> = new Map([
  ['S', 'MSD'],
  ['V', 'VSD'],
]);

/** The sign before a part of a chain; null for the first part. */
export function signBefore(tokens: readonly Token[], part: number): Span | null {
  const signs = tokens.filter(token => isSign(token, '=') || isSign(token, '≈'));
  return signs[part - 1]?.span ?? null;
}

export const NOTHING_BEHIND = 'nothing stands behind an equals sign';

/** `one turn` is 1 turn. */
function withNumberWords(tokens: readonly Token[]): readonly Token[] {
  const [first, ...rest] = tokens;
  return first?.kind === 'word' && first.text.toLowerCase() === 'one'
    ? [{ ...first, kind: 'number', text: '1' }, ...rest]
    : tokens;
}

/** Whether a formula speaks of divisions. */
export function namesDivision(expression: Expression): boolean {
  let found = false;
  visit(expression, part => {
    if (part.kind === 'name' && /(?:^|\] )1 /.test(part.key)) found = true;
  });
  return found;
}
