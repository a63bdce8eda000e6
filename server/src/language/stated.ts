import type { Expression } from '../engine/expression.ts';
import { unitWord } from '../engine/unit.ts';
import { withoutCountWords } from './count-words.ts';
import { type Draft, replaceFix, report } from './draft.ts';
import { type Parsed, parseExpression } from './expression-parser.ts';
import type { Stated } from './measurement.ts';
import { tokensSpan } from './parser.ts';
import { type NameTable, NO_WORDS } from './parser-state.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';
import { findTerm } from './terms.ts';
import { isUnitHyphen } from './unit-parser.ts';
import { doubtfulPower, runTogether } from './units-together.ts';
import { reportUnknownReference } from './unknown-reference.ts';

export interface StatedOptions {
  readonly mode: 'value' | 'link';
  /** The unit of a table column's head, for cells that are bare numbers. */
  readonly unit?: readonly Token[];
  readonly names?: NameTable;
  /** What is recorded must be known; a claim's words may turn out to mean nothing when it is judged. */
  readonly isRecord?: boolean;
}

/**
 * Reads a value or a formula of the block; null when it cannot be read, which is then reported at its place.
 *
 * A word that is both a unit and a name of the block leaves several readings, of which the block's values choose one.
 */
export function readStated(draft: Draft, tokens: readonly Token[], options: StatedOptions): Stated | null {
  if (!checkReferences(draft, tokens) || !checkMinus(draft, tokens)) return null;
  const names = options.names ?? draft.table;
  const whole = withWholeFractions(withoutCountWords(tokens));
  const withUnit =
    options.unit === undefined || hasOwnUnit(tokens) ? whole : [...whole, ...shifted(options.unit, tokens)];
  const parsed = parseExpression(withUnit, { names, asNames: NO_WORDS, mode: options.mode });
  for (const { rule, span, message, fixes, related } of parsed.problems)
    report(draft, rule, span, message, fixes, related);
  if (parsed.expression === null) return null;
  const isRecord = options.mode === 'value' || options.isRecord === true;
  if (isRecord && (reportUnknownWords(draft, parsed.spans) || reportDoubtfulPower(draft, withUnit)))
    return null;
  return statedOf(parsed, tokens, otherReadings(parsed, withUnit, names, options.mode));
}

interface Readings {
  readonly readings: readonly Expression[];
  readonly mixed: readonly Expression[];
}

const NO_READINGS: Readings = { readings: [], mixed: [] };

/** A record's value may hold the block's names, but no word that means nothing. */
export function reportUnknownWords(draft: Draft, spans: Parsed['spans']): boolean {
  let found = false;
  for (const [part, span] of spans) {
    if (part.kind !== 'name' || !part.key.startsWith('?')) continue;
    // Behind units that run together the next one stands for nothing either.
    if (found && unitWord(part.text) !== null) continue;
    found = true;
    const { message, fixes } = runTogether(part.text, span) ?? {
      message: `${part.text} is no value, no unit and no name of this block`,
      fixes: [],
    };
    report(draft, 'unreadable-line', span, message, fixes);
  }
  return found;
}

/** A record has nothing beside it that would say which unit is meant. */
function reportDoubtfulPower(draft: Draft, tokens: readonly Token[]): boolean {
  const doubtful = doubtfulPower(tokens);
  if (doubtful === null) return false;
  report(draft, doubtful.rule, doubtful.span, doubtful.message, doubtful.fixes);
  return true;
}

function statedOf(parsed: Parsed, tokens: readonly Token[], { readings, mixed }: Readings): Stated {
  return {
    expression: parsed.expression!,
    error: parsed.error,
    isValue: parsed.isValue,
    hasUnit: parsed.hasUnit,
    span: tokensSpan(tokens),
    text: tokensText(tokens),
    readings,
    mixed,
    spans: parsed.spans,
  };
}

/** The other ways to read the link: each set of doubtful words as names instead of units. */
function otherReadings(
  parsed: Parsed,
  tokens: readonly Token[],
  names: NameTable,
  mode: 'value' | 'link',
): Readings {
  if (parsed.ambiguousWords.size === 0)
    return parsed.mixed === null ? NO_READINGS : { readings: [], mixed: [parsed.mixed] };
  const words = [...parsed.ambiguousWords].slice(0, 3);
  const readings: Expression[] = [];
  const mixed: Expression[] = parsed.mixed === null ? [] : [parsed.mixed];
  for (let choice = 1; choice < 1 << words.length; choice++) {
    const asNames = new Set(words.filter((_, index) => (choice >> index) & 1));
    const other = parseExpression(tokens, { names, asNames, mode });
    if (other.expression !== null && other.problems.length === 0) readings.push(other.expression);
    // `pi d^2 / 4 h` with a height h is in doubt by itself: it counts as two readings, so that it is never taken.
    else if (other.doubtful !== null) readings.push(other.doubtful, other.doubtful);
    if (other.mixed !== null) mixed.push(other.mixed);
  }
  return { readings, mixed };
}

/** `9/10 MSD` is nine tenths of a division: a fraction counts divisions as it counts units. */
function withWholeFractions(tokens: readonly Token[]): readonly Token[] {
  if (!tokens.some(isStroke)) return tokens;
  const at = tokens.findIndex(
    (token, index) =>
      token.kind === 'number' &&
      tokens[index + 1]?.text === '/' &&
      tokens[index + 2]?.kind === 'number' &&
      tokens[index - 1]?.kind !== 'number' &&
      findTerm(tokens[index + 3]?.text ?? '')?.kind === 'division' &&
      /^\d+$/.test(token.text + tokens[index + 2]!.text),
  );
  if (at === -1) return tokens;
  const bracket = (text: string, place: number): Token => ({
    kind: 'operator',
    text,
    span: { start: place, end: place },
    spaced: false,
  });
  return [
    ...tokens.slice(0, at),
    bracket('(', tokens[at]!.span.start),
    ...tokens.slice(at, at + 3),
    bracket(')', tokens[at + 2]!.span.end),
    ...withWholeFractions(tokens.slice(at + 3)),
  ];
}

function isStroke(token: Token): boolean {
  return token.text === '/';
}

function hasOwnUnit(tokens: readonly Token[]): boolean {
  return tokens.some(
    token =>
      token.kind === 'degree' ||
      token.kind === 'prime' ||
      token.kind === 'percent' ||
      (token.kind === 'word' && (unitWord(token.text) !== null || token.text.length > 2)),
  );
}

/** The column's unit as if it stood behind the cell's number. */
function shifted(unit: readonly Token[], tokens: readonly Token[]): readonly Token[] {
  const end = tokens[tokens.length - 1]?.span.end ?? 0;
  return unit.map(token => ({ ...token, span: { start: end, end } satisfies Span }));
}

/** "of" stands only inside a reference, so one that no name covers refers to nothing in this note. */
function checkReferences(draft: Draft, tokens: readonly Token[]): boolean {
  if (!tokens.some(isOf)) return true;
  for (let index = 0; index < tokens.length; index++) {
    const found = draft.table.longestName(tokens, index);
    const next = tokens[index + (found?.length ?? 0)];
    if (found !== null && next?.text !== 'of') {
      index += found.length - 1;
      continue;
    }
    const of = found === null ? index : index + found.length;
    if (tokens[of]?.kind !== 'word' || tokens[of]?.text !== 'of') continue;
    let end = of + 1;
    while (
      end < tokens.length &&
      (tokens[end]!.kind === 'word' || (tokens[end]!.text === '-' && !tokens[end]!.spaced))
    )
      end += 1;
    if (end === of + 1) continue;
    // `lens 3` may be meant for a row; a number with a sign or nothing behind it counts with the words.
    const behind = tokens[end + 1];
    if (tokens[end]?.kind === 'number' && (behind === undefined || behind.kind === 'operator')) end += 1;
    const from = found === null ? Math.max(0, of - 1) : index;
    const named = tokens.slice(from, end);
    const rest = tokensText(tokens.slice(of + 1, end));
    reportUnknownReference(draft, tokensText(named), rest, tokensSpan(named));
    return false;
  }
  return true;
}

function isOf(token: Token): boolean {
  return token.text === 'of';
}

/** A minus beside a name has a space: `a-b` might be a name, so it is not read as a difference in silence. */
function checkMinus(draft: Draft, tokens: readonly Token[]): boolean {
  for (let index = 1; index + 1 < tokens.length; index++) {
    const token = tokens[index]!;
    if (token.kind !== 'operator' || token.text !== '-' || token.spaced) continue;
    const before = tokens[index - 1]!;
    const after = tokens[index + 1]!;
    if (after.spaced || before.kind !== 'word' || after.kind !== 'word' || inName(draft, tokens, index))
      continue;
    const names = [index - 1, index + 1].filter(at => draft.table.longestName(tokens, at) !== null);
    if (names.length < 2 && isUnitHyphen(tokens, index) && isMeasured(tokens, index - 1)) continue;
    const known = names.length === 2;
    const text = `${before.text} - ${after.text}`;
    report(
      draft,
      'ambiguous-expression',
      { start: before.span.start, end: after.span.end },
      `${before.text}-${after.text} could be one name or a difference; a minus beside a name has a space on both sides`,
      [
        {
          title: `Write ${text}`,
          edits: [{ span: token.span, newText: ' - ' }],
          sure: known,
        },
      ],
    );
    return false;
  }
  return true;
}

/** Whether a number stands before some units: `4.9 × 10^-7 kg-m^2`. */
function isMeasured(tokens: readonly Token[], unit: number): boolean {
  const before = tokens[unit - 1];
  if (before === undefined) return false;
  return before.kind === 'operator'
    ? isUnitHyphen(tokens, unit - 1) && isMeasured(tokens, unit - 2)
    : before.kind !== 'word' || isMeasured(tokens, unit - 1);
}

/** Whether the minus is a hyphen of a longer name that the note knows (`observed reading of axle-sleeve`). */
function inName(draft: Draft, tokens: readonly Token[], index: number): boolean {
  for (let from = index - 1; from >= 0 && index - from < 12; from--) {
    const found = draft.table.longestName(tokens, from);
    if (found !== null && from + found.length > index) return true;
  }
  return false;
}

/** `2.3–2.4 cm`: a dash between two numbers is no value; what is meant must be said. */
export function checkRange(
  draft: Draft,
  tokens: readonly Token[],
  write: (low: string, high: string, unit: string) => string | null,
): boolean {
  const at = tokens.findIndex(token => token.kind === 'operator' && token.text === '–');
  if (at === -1) return true;
  const number = (part: readonly Token[]): string => part.find(token => token.kind === 'number')?.text ?? '';
  const unit = tokens.filter(token => token.kind === 'word').map(token => token.text)[0] ?? '';
  const text = write(number(tokens.slice(0, at)), number(tokens.slice(at)), unit);
  const span = tokensSpan(tokens);
  report(
    draft,
    'not-plain',
    span,
    `a dash between two numbers is no value${text === null ? '' : `; where it stands between two marks, write ${text}`}`,
    text === null ? [] : [replaceFix(`Write ${text}`, span, text, true)],
  );
  return false;
}
