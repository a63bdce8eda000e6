import type { Finding } from '../../checks/finding.ts';

/**
 * A finding as a baseline keeps it: what it is about, and not where it stands, so that it is known again when lines above it
 * come or go.
 */
export interface RecordedFinding {
  readonly rule: string;
  readonly block: string | null;
  readonly term: string | null;
  readonly row: number | string | null;
  /** The stated value; where the finding is about none, the beginning of the words that it is about. */
  readonly stated: string | null;
  /** How many of these there are in the note. */
  readonly count: number;
}

/** So much of the words tells them apart well enough. */
const MOST_WORDS = 160;

/** One finding of a note, to be recorded. */
export function recordedFinding(
  { rule, block, term, row, stated, span }: Finding,
  text: string,
): RecordedFinding {
  return { rule, block, term, row, stated: stated ?? wordsAt(text, span.start, span.end), count: 1 };
}

/** The same for all findings that a baseline does not tell apart. */
export function recordedKey({ rule, block, term, row, stated }: RecordedFinding): string {
  return JSON.stringify([rule, block, term, row, stated]);
}

/** Findings with their counts, those that are alike together, in an order that depends on nothing else. */
export function countedFindings(findings: readonly RecordedFinding[]): readonly RecordedFinding[] {
  const counted = new Map<string, RecordedFinding>();
  for (const finding of findings) {
    const key = recordedKey(finding);
    counted.set(key, { ...finding, count: (counted.get(key)?.count ?? 0) + finding.count });
  }
  return [...counted].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, finding]) => finding);
}

/** Of the first line only: what follows may change for other reasons. */
function wordsAt(text: string, start: number, end: number): string | null {
  const [line = ''] = text.slice(start, Math.min(end, start + MOST_WORDS)).split(/[\r\n]/);
  const words = line.trim().replace(/\s+/g, ' ');
  return words === '' ? null : words;
}
