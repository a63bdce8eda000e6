import { comparedQuantities } from './compared-quantities.ts';
import { type Draft, replaceFix, report } from './draft.ts';
import { isInstrument } from './instruments.ts';
import { isWords } from './interpret-formula.ts';
import type { LeftSide } from './left-side.ts';
import { lineAt, mend } from './mend.ts';
import { isSymbol, subjectKey } from './names.ts';
import { hasSeparator, isSign, type Statement } from './parser.ts';
import { isSignWord, signBehind, signInWords } from './sign-words.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';
import { findTerm } from './terms.ts';
import { mayRecord } from './unread-sentence.ts';

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;

/**
 * Statements in the forms of hurried people, which are understood but not in the language's form: an error whose first
 * fix writes what was meant. True when the statement was one of them.
 */
export function oneKeyAway(draft: Draft, statement: Signed, left: LeftSide): boolean {
  const value = (): string => tokensText(statement.right);
  const away = (message: string, text: string): true => {
    mend(draft, statement.span, message, text);
    return true;
  };
  const only = statement.right.length === 1 ? statement.right[0] : undefined;
  const whole = only?.kind === 'number' && /^\d+$/.test(only.text);
  const leftText = statement.leftText;
  if (leftText === 'N' && whole && (draft.isScrew || draft.hasVernier)) {
    const scale = draft.isScrew ? 'circular scale' : 'vernier scale';
    return away(
      `N is the number of divisions of the ${scale} here; write it as the scale's record`,
      `${scale}: ${value()} divisions`,
    );
  }
  if (leftText === 'n' && whole && draft.isScrew && !draft.hasVernier) {
    return away(
      'on a screw n is no reading; the number of divisions of the circular scale is likely meant',
      `circular scale: ${value()} divisions`,
    );
  }
  const isCount =
    left.kind === 'term' && left.term.name === 'circular scale division' && whole && Number(value()) > 1;
  if (isCount && !draft.counts.has('circular scale')) {
    return away(
      `a circular scale division is a length, but ${value()} is their number; write it as the scale's record`,
      `circular scale: ${value()} divisions`,
    );
  }
  if (left.kind === 'term' && left.term.name === 'vernier scale reading' && only?.kind === 'number') {
    return away(
      `a vernier scale reading is a length, but ${value()} is the number of a line: the coinciding division`,
      `coinciding division: ${value()}`,
    );
  }
  return (
    signInWords(draft, statement, left) ||
    signBehind(draft, statement, left) ||
    lengthOfScale(statement, away) ||
    severalFacts(draft, statement) ||
    behindText(draft, statement, away) ||
    bareStatistic(draft, statement, left, away) ||
    numberedReading(draft, statement, leftText)
  );
}

type Away = (message: string, text: string) => true;

/** `1 cm = 20 MSD` without its scale. */
function lengthOfScale(statement: Signed, away: Away): boolean {
  if (statement.kind !== 'claim' || statement.left[0]?.kind !== 'number') return false;
  const division = statement.right[statement.right.length - 1];
  const term = division === undefined ? null : findTerm(division.text);
  const unit = statement.left[1];
  if (
    term?.kind !== 'division' ||
    unit === undefined ||
    statement.left.length > 3 ||
    findTerm(unit.text)?.kind === 'division'
  )
    return false;
  const scale = term.name === 'rotation' ? 'screw' : term.name.replace(/ division$/, '');
  return away(
    'this says how a scale is divided; the name of the scale stands before it',
    `${scale}: ${statement.leftText} = ${tokensText(statement.right)}`,
  );
}

/** `pitch: 1 mm, 100 divisions on the disc`: several facts on one line. */
function severalFacts(draft: Draft, statement: Signed): boolean {
  if (statement.leftSide.kind === 'term' && statement.leftSide.term.name === 'closed') return false;
  // `zero error: negative, 4 divisions` is one fact, of which no part is true by itself.
  if (isSignWord(statement.right[0])) return false;
  if (!hasSeparator(statement.left) && !hasSeparator(statement.right)) return false;
  const all = [
    ...statement.left,
    {
      kind: 'operator',
      text: statement.kind === 'record' ? ':' : ' =',
      span: statement.sign,
      spaced: false,
    } as const,
    ...statement.right,
  ];
  return splitFacts(draft, all, statement.span);
}

/** Reads a line of several facts as so many lines; false, with nothing reported, where it is one, or a part is not clear. */
export function splitFacts(draft: Draft, tokens: readonly Token[], span: Span): boolean {
  const parts = splitAtCommas(tokens);
  if (parts.length < 2 || draft.mending !== null) return false;
  const facts = parts.map(part => factOf(part));
  if (facts.some(fact => fact === null) || facts.every(fact => fact === tokensText(tokens))) return false;
  mend(draft, span, 'each fact stands on a line of its own', facts.join('\n'));
  return true;
}

/** What one part of a line says by itself; null where that is not clear. */
export function factOf(part: readonly Token[]): string | null {
  const text = tokensText(part).trim();
  if (isInstrument(text)) return `instrument: ${text}`;
  const divisions =
    /^(?:the )?(?:disc|drum|dial|thimble|circular scale)? ?(?:has |with )?(\d+) (?:circular |head )?(?:scale )?div(?:ision)?s?\.?(?: (?:on|of|around) the (?:disc|drum|dial|thimble|circular scale|head scale|head))?$/i.exec(
      text,
    );
  if (divisions?.[1] !== undefined) return `circular scale: ${divisions[1]} divisions`;
  const at = part.findIndex(token => isSign(token, ':') || token.text === ' =' || isSign(token, '='));
  if (at < 1) return null;
  const term = findTerm(tokensText(part.slice(0, at)).replace(/^the /i, ''));
  return term === null || term.name === 'closed' || term.name === 'waive'
    ? null
    : text.replace(/ {2,}=/, ' =');
}

/** `elevation of the dial, reading = 12° 43′ 50″`: text before the term. */
function behindText(draft: Draft, statement: Signed, away: Away): boolean {
  if (!hasSeparator(statement.left)) return false;
  let comma = -1;
  for (const [index, token] of statement.left.entries()) if (isSign(token, ',')) comma = index;
  const name = comma < 1 ? '' : tokensText(statement.left.slice(comma + 1));
  if (findTerm(name) === null) return false;
  const sign = statement.kind === 'record' ? ':' : ' =';
  const text = tokensText(statement.left.slice(0, comma));
  if (isSymbol(name) && isWords(statement.left.slice(0, comma)))
    return openSymbol(draft, statement, text, name);
  return away(
    `${text} is text before the ${name}; text stands in a comment`,
    `${name}${sign} ${tokensText(statement.right)}  # ${text}`,
  );
}

/** `volume, V = 3.2 cm^3`: V may be the symbol of the volume or, behind some text, the word of the trade. */
function openSymbol(draft: Draft, statement: Signed, text: string, symbol: string): boolean {
  const { left, right, span } = statement;
  const named = { start: left[0]!.span.start, end: left[left.length - 1]!.span.end };
  const rest = `${symbol}${statement.kind === 'record' ? ':' : ' ='} ${tokensText(right)}  # ${text}`;
  draft.sentences.push({ span, may: mayRecord(draft, text) });
  report(
    draft,
    'not-plain',
    named,
    `${symbol} may be a symbol for the ${text} or the ${findTerm(symbol)!.name}; write ${text} ${symbol}, or the text in a comment`,
    [
      replaceFix(`Write ${text} ${symbol}`, named, `${text} ${symbol}`, false),
      replaceFix(`Write ${rest}`, span, rest, false),
    ],
  );
  return true;
}

/** `Average = 1.72 mm` below a table, `percentage error = 1.2 %` below one quantity: of what goes without saying, but must be said. */
function bareStatistic(draft: Draft, statement: Signed, left: LeftSide, away: Away): boolean {
  if (
    left.kind !== 'term' ||
    left.term.kind !== 'statistic' ||
    left.symbol !== null ||
    left.term.name === 'percentage difference'
  )
    return false;
  const rest = `${statement.kind === 'record' ? ':' : ' ='} ${tokensText(statement.right)}`;
  if (left.term.name === 'mean' && draft.rows.length > 0) {
    const corrected = draft.claims.some(
      ({ subject }) => subject.kind === 'term' && subject.term === 'corrected reading',
    );
    const term = corrected ? 'mean corrected reading' : 'mean observed reading';
    return away(`the mean of what? below this table the ${term} is likely meant`, `${term}${rest}`);
  }
  const compared = left.term.name === 'percentage error' ? comparedQuantities(draft, statement.right) : null;
  if (compared !== null) {
    const { name, from } = compared;
    return away(
      `the percentage error of what? a difference over one of two values is the percentage difference of ${name} from ${from}`,
      `percentage difference of ${name} from ${from}${rest}`,
    );
  }
  const last = lastQuantity(draft);
  if (last !== null)
    return away(
      `the ${left.term.name} of what? ${last} is likely meant`,
      `${left.term.name} of ${last}${rest}`,
    );
  const recorded = [...draft.own.keys()];
  if (recorded.length === 0) return false;
  const whole = (name: string): string => `${left.term.name} of ${name}${rest}`;
  if (recorded.length === 1)
    return away(`the ${left.term.name} of what? ${recorded[0]} is likely meant`, whole(recorded[0]!));
  report(
    draft,
    'not-plain',
    statement.span,
    `the ${left.term.name} of what? it may be that of ${recorded.slice(0, -1).join(', ')} or ${recorded.at(-1)}`,
    recorded
      .slice(0, MOST_OFFERED)
      .map(name => replaceFix(`Write ${left.term.name} of ${name}`, statement.span, whole(name), false)),
  );
  return true;
}

/** More fixes than this nobody reads. */
const MOST_OFFERED = 4;

/** The quantity of which a claim spoke last. */
function lastQuantity(draft: Draft): string | null {
  let subject = draft.claims[draft.claims.length - 1]?.subject;
  while (subject?.kind === 'statistic') subject = subject.of;
  if (subject?.kind === 'own') return subject.name;
  const isScatter =
    subject?.kind === 'term' &&
    (subject.term === 'mean absolute error' || subject.term === 'standard deviation');
  return subject?.kind === 'term' && !isScatter && subjectKey(subject) === subject.term ? subject.term : null;
}

/** More lines than this are not mended together, for each of them has all of their edits. */
const MOST_TOGETHER = 60;

/** `reading 1: 4.20 cm, VC 12`: repeated readings belong in a table, those that stand together in one. */
function numberedReading(draft: Draft, statement: Signed, leftText: string): boolean {
  const numbered = /^(?:reading|obs\.?|observation|trial)\s*(?:no\.?\s*)?\d{1,3}$/i;
  if (statement.kind !== 'record' || !/\d$/.test(leftText) || !numbered.test(leftText)) return false;
  const cells = splitAtCommas(statement.right).flatMap(part => cellsOf(draft, part));
  const line = lineAt(draft, statement.span);
  const above = line === undefined ? undefined : draft.fence.lines[draft.fence.lines.indexOf(line) - 1];
  const goesOn = above !== undefined && numbered.test(above.text.split(':')[0]!.trim());
  const indent =
    line === undefined ? '' : line.text.slice(0, line.text.length - line.text.trimStart().length);
  const head = `| ${cells.map(cell => cell.head).join(' | ')} |\n${line?.prefix ?? ''}${indent}`;
  const row = `| ${cells.map(cell => cell.value).join(' | ')} |`;
  const edit = { span: statement.span, newText: goesOn ? row : head + row };
  if (!goesOn) draft.rowEdits = [];
  const isTogether = draft.rowEdits.length < MOST_TOGETHER;
  if (isTogether) draft.rowEdits.push(edit);
  // A row alone has no head, so whichever is mended, the others are as well.
  const edits = isTogether ? draft.rowEdits : [edit];
  report(draft, 'not-plain', statement.span, 'repeated readings are written as the rows of a table', [
    { title: 'Write them as the rows of a table', edits, sure: true },
  ]);
  for (const term of [
    'main scale reading',
    'linear scale reading',
    'coinciding division',
    'circular scale reading',
  ])
    draft.broken.add(term);
  return true;
}

function cellsOf(
  draft: Draft,
  part: readonly Token[],
): readonly { readonly head: string; readonly value: string }[] {
  const at = part.findIndex(
    (token, index) =>
      token.kind === 'word' && /^(?:VC|CSR|HSR|n|VSR)$/.test(token.text) && (index > 0 || part.length > 1),
  );
  if (at > 0) return [...cellsOf(draft, part.slice(0, at)), ...cellsOf(draft, part.slice(at))];
  if (at === 0) {
    const rest = part.slice(1).filter(token => !isSign(token, '=') && !isSign(token, ':'));
    return [{ head: part[0]!.text === 'VSR' ? 'VC' : part[0]!.text, value: tokensText(rest) }];
  }
  return [{ head: draft.isScrew ? 'LSR' : 'MSR', value: tokensText(part) }];
}

function splitAtCommas(tokens: readonly Token[]): readonly (readonly Token[])[] {
  const parts: Token[][] = [[]];
  for (const token of tokens) {
    if (isSign(token, ',') || isSign(token, ';')) parts.push([]);
    else parts[parts.length - 1]!.push(token);
  }
  return parts.filter(part => part.length > 0);
}
