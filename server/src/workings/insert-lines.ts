import type { NoteCheck } from '../checks/note-check.ts';
import type { Facts } from '../language/facts.ts';
import { linesBelow } from '../language/line-edits.ts';
import type { Claim, Subject } from '../language/measurement.ts';
import { subjectKey } from '../language/names.ts';
import type { Edit } from '../language/problem.ts';
import { chainVariants } from './chain-in-line.ts';
import { type LineVariant, lineVariants } from './line-variants.ts';
import { openValue } from './open-value.ts';
import { tryEdits } from './try-edits.ts';
import { workedSubjects } from './worked-subjects.ts';
import { type WorkingOptions, workingOf } from './working.ts';

const USUAL: WorkingOptions = { way: null };

/**
 * Claims all that a block does not claim yet, from bare observations to the corrected reading in one step.
 *
 * A line that ends in `= ?` is completed where it stands, and so is a cell of a table; everything else becomes lines at
 * the end of the block. What is written passes the check: a line that would not, since a unit of it is a name of the
 * block for example, is written shorter, or not at all.
 */
export function insertLinesEdits(
  note: NoteCheck,
  block: number,
  options: WorkingOptions = USUAL,
): readonly Edit[] {
  const facts = note.facts.block(block);
  const pieces = [
    ...facts.measurement.claims.flatMap(claim => answers(note, facts, claim, options) ?? []),
    ...missingLines(note, facts, options),
  ];
  return joined(accepted(note, block, pieces));
}

/** Whether there is something to claim yet: as cheap as one working, since editors ask at every move of the cursor. */
export function hasLinesToInsert(note: NoteCheck, block: number, options: WorkingOptions = USUAL): boolean {
  const facts = note.facts.block(block);
  return (
    facts.measurement.claims.some(claim =>
      answers(note, facts, claim, options)?.some(piece => piece.length > 0),
    ) || unclaimedSubjects(facts).some(subject => variantsOf(note, facts, subject, options).length > 0)
  );
}

/** Edits at one place as one edit. */
function joined(edits: readonly Edit[]): readonly Edit[] {
  const whole: Edit[] = [];
  for (const edit of edits) {
    const before = whole[whole.length - 1];
    if (before?.span.start === edit.span.start && before.span.end === edit.span.end)
      whole[whole.length - 1] = { ...before, newText: before.newText + edit.newText };
    else whole.push(edit);
  }
  return whole;
}

/** One thing to write, in the ways in which it can be: the fullest first. */
type Piece = readonly Edit[];

/** Each piece in its fullest way that the check has nothing to say to. */
function accepted(note: NoteCheck, block: number, pieces: readonly Piece[]): readonly Edit[] {
  const chosen = pieces.map(() => 0);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const standing = pieces.flatMap((piece, at) => {
      const edit = piece[chosen[at]!];
      return edit === undefined ? [] : [{ at, edit }];
    });
    const edits = standing.map(({ edit }) => edit);
    if (edits.length === 0) return [];
    const { faulted, places } = tryEdits(note, block, edits);
    const hit = standing.filter((_, index) => {
      const { start, end } = places[index]!;
      return faulted.some(span => span.start < end && start < span.end);
    });
    if (hit.length === 0) return edits;
    for (const { at } of hit) chosen[at]! += 1;
  }
  return [];
}

/** More than a line has ways to be written. */
const MOST_ROUNDS = 6;

/** What can stand in the place of a question mark; null for a claim that does not ask. */
function answers(note: NoteCheck, facts: Facts, claim: Claim, options: WorkingOptions): Piece[] | null {
  const asked = claim.links.find(link => link.content.kind === 'asked');
  if (asked === undefined || claim.mended) return null;
  const isBare = !claim.inTable && claim.links.length === 1;
  const text = openValue(facts, claim, asked);
  return [
    [
      ...(isBare ? chainVariants(note, facts.index, claim, options) : []),
      ...(text === null ? [] : [{ span: asked.span, newText: text }]),
    ],
  ];
}

/** Lines for all that has a working and no claim yet, in the order of teaching. */
function missingLines(note: NoteCheck, facts: Facts, options: WorkingOptions): readonly Piece[] {
  const { fence } = facts.measurement;
  const last = fence.lines.findLast(line => line.text.trim() !== '') ?? null;
  const written = new Set<string>();
  return unclaimedSubjects(facts).flatMap((subject): readonly Piece[] => {
    const variants = variantsOf(note, facts, subject, options);
    const left = variants[0]?.left;
    if (left === undefined || written.has(left)) return [];
    written.add(left);
    return [variants.map(({ line }) => linesBelow(note.text, fence, last, [line]))];
  });
}

function unclaimedSubjects(facts: Facts): readonly Subject[] {
  const { claims, typedAsClaims } = facts.measurement;
  const claimed = new Set([...claims, ...typedAsClaims].map(claim => subjectKey(claim.subject)));
  return claimableSubjects(facts).filter(subject => !claimed.has(subjectKey(subject)));
}

function variantsOf(
  note: NoteCheck,
  facts: Facts,
  subject: Subject,
  options: WorkingOptions,
): readonly LineVariant[] {
  const derivation = workingOf(note, facts.index, subject, options)?.derivation;
  return derivation === undefined ? [] : lineVariants(derivation);
}

/** A longer table wants a column, not a line for every row. */
const MOST_ROWS = 40;

/** What a worked solution shows, and the readings of the rows that it would only show in a table. */
function claimableSubjects(facts: Facts): readonly Subject[] {
  const worked = workedSubjects(facts);
  const last = worked.findLastIndex(subject => rowTerm(subject) !== null);
  const terms = new Set(worked.flatMap(subject => rowTerm(subject) ?? []));
  const { rows } = facts.measurement;
  if (last === -1 || MOST_ROWS < rows.length) return worked;
  const keys = new Set(worked.map(subjectKey));
  const others = rows
    .flatMap(({ number }) =>
      [...terms].map((term): Subject => ({ kind: 'term', term, row: number, block: null })),
    )
    .filter(subject => !keys.has(subjectKey(subject)));
  return [...worked.slice(0, last + 1), ...others, ...worked.slice(last + 1)];
}

/** The term of a reading that every row of the block's own table has; null for any other subject. */
function rowTerm(subject: Subject): 'observed reading' | 'corrected reading' | null {
  if (subject.kind !== 'term' || subject.row === null || subject.block !== null) return null;
  return subject.term === 'observed reading' || subject.term === 'corrected reading' ? subject.term : null;
}
