import type { Finding } from '../../checks/finding.ts';

/** What a report says of a note in two parts: what goes before all warnings of all notes, and what goes after all errors. */
export interface Parts {
  readonly first: readonly string[];
  readonly later: readonly string[];
}

/** Parts a piece, which is text that holds whole lines, from the next; no line of a report holds it. */
const PARTING = '\0';

/**
 * Where a host shows only the first few findings, the worst must be among them: errors go first, then all the rest, each
 * in the order of the notes. Gives a piece with a line for each finding.
 */
export function worstFirstPiece(findings: readonly Finding[], line: (finding: Finding) => string): string {
  const first: string[] = [];
  const later: string[] = [];
  for (const finding of findings)
    (finding.severity === 'error' && finding.waived === null ? first : later).push(line(finding));
  return first.length + later.length === 0 ? '' : `${first.join('\n')}${PARTING}${later.join('\n')}`;
}

/** A piece taken apart again. */
export function partsOf(piece: string): Parts {
  const [first = '', later = ''] = piece.split(PARTING);
  return { first: linesOf(first), later: linesOf(later) };
}

function linesOf(text: string): readonly string[] {
  return text === '' ? [] : text.split('\n');
}
