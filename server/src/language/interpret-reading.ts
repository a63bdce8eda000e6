import { isPlain } from '../engine/dimension.ts';
import { visit } from '../engine/evaluation.ts';
import { unitShown, unitWord } from '../engine/unit.ts';
import { type Draft, replaceFix, report } from './draft.ts';
import type { Observation, Observed, Stated } from './measurement.ts';
import { lineAt, mend } from './mend.ts';
import { tokensSpan } from './parser.ts';
import { checkRange, readStated } from './stated.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';
import type { DivisionTerm, ObservableTerm } from './term-names.ts';
import { findTerm } from './terms.ts';

/** Whether an observable is a place on a scale with a unit, or a bare division's number. */
function isLength(term: ObservableTerm): boolean {
  return term === 'main scale reading' || term === 'linear scale reading' || term === 'coinciding main mark';
}

/**
 * Reads what was seen: a length, a count of divisions, or `between` two neighbours.
 *
 * Null when it cannot be read; that is reported where it stands.
 */
export function interpretReading(
  draft: Draft,
  term: ObservableTerm,
  right: readonly Token[],
  span: Span,
  unit?: readonly Token[],
): Observation | null {
  const valueSpan = right.length === 0 ? span : tokensSpan(right);
  if (right.length === 0) {
    report(draft, 'unreadable-line', span, `the ${term} has no value; write what was seen`);
    return null;
  }
  if (term === 'turned') return readTurned(draft, right, span, valueSpan);
  const between = readBetween(right);
  if (between !== null) {
    if (isLength(term) && unit === undefined && between.high.length === 1 && between.low.length === 1) {
      const likely = likelyUnit(draft);
      const text = `between ${between.low[0]!.text} ${likely} and ${between.high[0]!.text} ${likely}`;
      report(
        draft,
        'missing-unit',
        valueSpan,
        `${tokensText(right)} has no unit, so nobody knows where the ${term} is; ${text} is likely meant`,
        [replaceFix(`Write ${text}`, valueSpan, text, false)],
      );
      return null;
    }
    const high = readObserved(draft, term, between.high, unit);
    const low = readObserved(
      draft,
      term,
      between.low,
      unit === undefined || unit.length === 0 ? unitBehind(between.high) : unit,
    );
    return low && high && { kind: 'between', low, high, span, valueSpan };
  }
  const write = (low: string, high: string, of: string): string =>
    isLength(term) ? `between ${low} ${of} and ${high} ${of}` : `between ${low} and ${high}`;
  if (!checkRange(draft, right, write)) return null;
  const value = readObserved(draft, term, right, unit);
  return value && { kind: 'at', value, span, valueSpan };
}

function readBetween(tokens: readonly Token[]): { low: readonly Token[]; high: readonly Token[] } | null {
  if (tokens[0]?.text.toLowerCase() !== 'between') return null;
  const and = tokens.findIndex(token => token.kind === 'word' && token.text.toLowerCase() === 'and');
  return and < 2 || and === tokens.length - 1
    ? null
    : { low: tokens.slice(1, and), high: tokens.slice(and + 1) };
}

/** `between 7.35 and 7.40 cm`: the unit of the second holds for the first. */
function unitBehind(tokens: readonly Token[]): readonly Token[] {
  return tokens.filter(token => token.kind !== 'number' && token.kind !== 'operator');
}

function readTurned(draft: Draft, right: readonly Token[], span: Span, valueSpan: Span): Observation | null {
  const text = tokensText(right).toLowerCase();
  if (/\bhigher\b|\bincreasing\b/.test(text)) return { kind: 'direction', toward: 'higher', span, valueSpan };
  if (/\blower\b|\bdecreasing\b/.test(text)) return { kind: 'direction', toward: 'lower', span, valueSpan };
  report(
    draft,
    'unreadable-line',
    valueSpan,
    `${tokensText(right)} does not say which way; write toward higher numbers or toward lower numbers`,
  );
  return null;
}

function readObserved(
  draft: Draft,
  term: ObservableTerm,
  tokens: readonly Token[],
  unit?: readonly Token[],
): Observed | null {
  const counted = readCounted(tokens);
  if (counted !== null) {
    const count = readStated(draft, counted.count, { mode: 'value' });
    if (count === null) return null;
    if (isLength(term) || counted.division === null)
      return { kind: 'count', count, division: counted.division };
    return { kind: 'count', count, division: null };
  }
  const stated = readStated(draft, tokens, {
    mode: 'value',
    ...(unit && unit.length > 0 && isLength(term) ? { unit } : {}),
  });
  if (stated === null) return null;
  if (isLength(term)) {
    if (isBareNumber(stated)) {
      const likely = likelyUnit(draft);
      report(
        draft,
        'missing-unit',
        stated.span,
        `${stated.text} has no unit, so nobody knows what the ${term} is; ${stated.text} ${likely} is likely meant`,
        [replaceFix(`Write ${stated.text} ${likely}`, stated.span, `${stated.text} ${likely}`, false)],
      );
      return null;
    }
    return { kind: 'length', stated };
  }
  if (stated.hasUnit) {
    notADivision(draft, term, stated);
    return null;
  }
  return { kind: 'count', count: stated, division: null };
}

/** `24 MSD`, `17th`, `4 turns`, `17 divisions`, `17th division`. */
function readCounted(
  tokens: readonly Token[],
): { count: readonly Token[]; division: DivisionTerm | null } | null {
  const words = tokens.slice(1).filter(token => !/^(?:st|nd|rd|th)$/.test(token.text));
  const first = tokens[0];
  if (first === undefined || tokens.length === 1 || first.kind !== 'number') return null;
  const text = tokensText(words);
  if (text === '' || /^(?:divisions?|divs?|div|lines?|marks?)$/i.test(text)) {
    return tokens.length > 1 && tokens.slice(1).every(token => token.kind === 'word')
      ? { count: [first], division: null }
      : null;
  }
  const term = findTerm(text);
  return term?.kind === 'division' ? { count: [first], division: term.name as DivisionTerm } : null;
}

/** `VC = 0.01 cm`: a length is the vernier constant, the least count, also where a line that coincides is recorded. */
export function isVernierConstant(term: ObservableTerm, tokens: readonly Token[]): boolean {
  const [number, unit, ...others] = tokens;
  return (
    term === 'coinciding division' &&
    number?.kind === 'number' &&
    unit?.kind === 'word' &&
    unitWord(unit.text)?.dimension.length === 1 &&
    others.length === 0
  );
}

function notADivision(draft: Draft, term: ObservableTerm, stated: Stated): void {
  if (term === 'coinciding division') {
    const message = `the coinciding division is the number of a line, but ${stated.text} is a length; with VC the vernier constant may be meant, the least count`;
    const line = lineAt(draft, stated.span);
    if (line === undefined || line.text.includes('|')) report(draft, 'not-plain', stated.span, message);
    else
      mend(
        draft,
        { start: line.start + line.text.length - line.text.trimStart().length, end: stated.span.end },
        message,
        `least count: ${stated.text}`,
      );
    return;
  }
  report(
    draft,
    'not-plain',
    stated.span,
    `the ${term} is the number of a division, not ${stated.text}; write the number that was read on the scale`,
  );
}

function isBareNumber(stated: Stated): boolean {
  return (
    !stated.hasUnit &&
    stated.expression.kind === 'literal' &&
    isPlain(stated.expression.quantity.dimension) &&
    !/^(?:0+(?:\.0*)?|nil)$/i.test(stated.text)
  );
}

/** The unit that the block's scales and readings are in; millimetres where they say nothing. */
function likelyUnit(draft: Draft): string {
  for (const record of draft.scales) {
    for (const side of record.sides) {
      let unit: string | null = null;
      visit(side.expression, part => {
        if (part.kind === 'literal' && part.quantity.unit !== null && unit === null)
          unit = unitShown(part.quantity.unit);
      });
      if (unit !== null && unit !== '') return unit;
    }
  }
  return 'mm';
}
