import { checkNote } from '../checks/check.ts';
import type { CheckedNote, Finding } from '../checks/finding.ts';
import { DEFAULT_SETTINGS, type Settings } from '../checks/settings.ts';
import type { Edit, Fix } from '../language/problem.ts';
import { editsOfPieces, followedEdits, type Piece } from './followed-edits.ts';
import { settledEdits, withEdits } from './settled-edits.ts';

/**
 * The edits that make all sure fixes of a note, as often as new ones come up; none where there is nothing to mend.
 *
 * Fixing what was fixed changes nothing. Of two fixes that meet the earlier one counts, and the other waits.
 */
export function fixAllEdits(text: string, settings: Settings = DEFAULT_SETTINGS): readonly Edit[] {
  return mendedNote(text, note => checkNote(note, settings)).edits;
}

/** A note with its sure fixes made. */
export interface MendedNote {
  readonly text: string;
  /** What makes it of the note as it was. */
  readonly edits: readonly Edit[];
  /** How many fixes were made; one that only made way for another counts as well. */
  readonly fixes: number;
  /** Why it came to an end: nothing was left, a text came back that was there before, or the rounds were used up. */
  readonly end: 'mended' | 'ring' | 'rounds';
}

/** More rounds of mending than any note can need. */
const MOST_ROUNDS = 12;

/**
 * Makes all sure fixes of a note at once, checks it again, and so on until none is left.
 *
 * Only the first fix of a finding counts. Where the fixes would go round in a ring, the first text of the ring stays.
 */
export function mendedNote(text: string, check: (text: string) => CheckedNote): MendedNote {
  const before = new Map<string, { readonly pieces: readonly Piece[]; readonly fixes: number }>();
  let current = text;
  let fixes = 0;
  let pieces: readonly Piece[] = [{ kind: 'kept', start: 0, end: text.length }];
  for (let round = 0; round <= MOST_ROUNDS; round++) {
    const known = before.get(current);
    if (known !== undefined)
      return { text: current, edits: editsOfPieces(text, known.pieces), fixes: known.fixes, end: 'ring' };
    before.set(current, { pieces, fixes });
    const settled = settledEdits(check(current).findings.flatMap(sureFix));
    if (settled.fixes === 0)
      return { text: current, edits: editsOfPieces(text, pieces), fixes, end: 'mended' };
    if (round === MOST_ROUNDS) break;
    pieces = followedEdits(pieces, settled.edits);
    current = withEdits(current, settled.edits);
    fixes += settled.fixes;
  }
  return { text: current, edits: editsOfPieces(text, pieces), fixes, end: 'rounds' };
}

/** The fix that needs no asking; none for what is waived. */
function sureFix({ fixes, waived }: Finding): readonly Fix[] {
  const first = fixes[0];
  return waived === null && first?.sure ? [first] : [];
}
