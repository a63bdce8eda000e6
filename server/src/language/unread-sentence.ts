import { unitWord } from '../engine/unit.ts';
import { type Draft, report } from './draft.ts';
import { lineOf } from './line-edits.ts';
import type { SentenceRecord } from './measurement.ts';
import { isSymbol } from './names.ts';
import type { Fix, Problem } from './problem.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';
import { findTerm } from './terms.ts';

const FINE_SCALE =
  /\b(?:vernier|v\.?s\.?d|c\.?s\.?d|h\.?s\.?d|circular|thimble|drum|head scale|disc|dial|divisions?|divs?|parts|coincid\w*|in line)\b/i;
const SCREW = /\b(?:screw|pitch|rotat\w*|turns?|revolutions?|spindle)\b/i;

/** What a sentence may record, by its words. */
export function mayRecord(draft: Draft, text: string): SentenceRecord {
  if (FINE_SCALE.test(text)) return 'fine scale';
  return draft.isScrew && SCREW.test(text) ? 'screw' : 'nothing';
}

/** Says that a line is no statement; text belongs in a comment. */
export function reportSentence(
  draft: Draft,
  text: string,
  span: Span,
  message: string,
  fixes: readonly Fix[],
): void {
  draft.sentences.push({ span, may: mayRecord(draft, text) });
  report(draft, 'unreadable-line', span, message, fixes);
}

/** Makes the line that a statement stands on a comment; surely meant only where the line is text and nothing else. */
export function commentFix(draft: Draft, span: Span, sure: boolean): Fix {
  const line = lineOf(draft.fence, span.start);
  const before = line?.text.slice(0, span.start - line.start) ?? '';
  // A bullet, a number or a word such as "then" before the text goes with it; another statement does not.
  const start = /[=:,;]/.test(before) ? span.start : span.start - before.trimStart().length;
  return { title: 'Make it a comment', edits: [{ span: { start, end: start }, newText: '# ' }], sure };
}

/**
 * Whether a line without a sign is surely text: it begins with a word that begins no term, and holds no value, or so many
 * words that it is a sentence.
 */
export function isText(draft: Draft, tokens: readonly Token[]): boolean {
  if (tokens[0]?.kind !== 'word' || beginsName(draft, tokens)) return false;
  const words = tokens.filter(({ kind }) => kind === 'word').length;
  return words >= SENTENCE || !tokens.some((_, index) => isValueAt(tokens, index));
}

const SENTENCE = 8;

/** A number with a unit behind it, or with nothing. */
function isValueAt(tokens: readonly Token[], index: number): boolean {
  const next = tokens[index + 1];
  return (
    tokens[index]!.kind === 'number' &&
    (next === undefined || next.kind !== 'word' || unitWord(next.text) !== null)
  );
}

/**
 * Whether what stands behind a sign is surely text: at least three words in a row that begin with no name of the block.
 * What begins like a value, a number or a formula may be one.
 */
export function isTextBehindSign(draft: Draft, right: readonly Token[]): boolean {
  const start = right.slice(0, 3);
  return (
    right.length === 0 ||
    (start.length === 3 &&
      start.every(({ kind, spaced }, index) => kind === 'word' && (index === 0 || spaced)) &&
      start.some(({ text }) => !isSymbol(text)) &&
      !/^any$/i.test(start[0]!.text) &&
      !beginsName(draft, right))
  );
}

function beginsName(draft: Draft, tokens: readonly Token[]): boolean {
  const texts = [1, 2, 3].map(length => tokensText(tokens.slice(0, length)));
  return (
    draft.table.longestName(tokens, 0) !== null ||
    texts.some(text => text.length > 1 && findTerm(text) !== null)
  );
}

/**
 * The problems of a block when all of it has been seen: a sentence that may be the record of a fine scale or of a screw is
 * not surely a comment where no line records it, for without it the coarse scale would stand alone.
 */
export function withSureComments(draft: Draft): readonly Problem[] {
  const doubtful = new Set(
    draft.sentences.flatMap(({ span, may }) => (isRecorded(draft, may) ? [] : [span.start])),
  );
  if (doubtful.size === 0) return draft.problems;
  return draft.problems.map(problem =>
    problem.rule === 'unreadable-line' && doubtful.has(problem.span.start)
      ? { ...problem, fixes: problem.fixes.map(fix => ({ ...fix, sure: false })) }
      : problem,
  );
}

/** Whether a line that was read records, or claims, what a sentence may record. */
function isRecorded(draft: Draft, may: SentenceRecord): boolean {
  const { scales, counts, givens, claims } = draft;
  const says = (...names: readonly string[]): boolean =>
    scales.some(({ scale }) => names.some(name => scale.startsWith(name))) ||
    names.some(name => counts.has(name as never) || givens.has(name as never)) ||
    claims.some(
      ({ subject }) => subject.kind === 'division' && names.some(name => subject.division.startsWith(name)),
    );
  switch (may) {
    case 'nothing':
      return true;
    case 'fine scale':
      return says('vernier scale', 'circular scale', 'least count') || !says('main scale', 'linear scale');
    case 'screw':
      return says('screw', 'rotation', 'pitch') || !says('linear scale');
  }
}
