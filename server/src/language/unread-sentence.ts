import { type Draft, report } from './draft.ts';
import type { SentenceRecord } from './measurement.ts';
import type { Fix, Problem } from './problem.ts';
import type { Span } from './syntax.ts';

const FINE_SCALE =
  /\b(?:vernier|v\.?s\.?d|c\.?s\.?d|h\.?s\.?d|circular|thimble|drum|head scale|disc|dial|divisions?|divs?|parts|coincid\w*|in line)\b/i;
const SCREW = /\b(?:screw|pitch|rotat\w*|turns?|revolutions?|spindle)\b/i;

/** What a sentence may record, by its words. */
export function mayRecord(draft: Draft, text: string): SentenceRecord {
  if (FINE_SCALE.test(text)) return 'fine scale';
  return draft.isScrew && SCREW.test(text) ? 'screw' : 'nothing';
}

/** Says that a line is no statement; text belongs in a comment. */
export function reportSentence(draft: Draft, text: string, span: Span, message: string): void {
  draft.sentences.push({ span, may: mayRecord(draft, text) });
  report(draft, 'unreadable-line', span, message, [commentFix(span)]);
}

/** Makes the line that a statement stands on a comment. */
export function commentFix(span: Span): Fix {
  return {
    title: 'Make it a comment',
    edits: [{ span: { start: span.start, end: span.start }, newText: '# ' }],
    sure: true,
  };
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
