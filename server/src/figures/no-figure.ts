import type { NoteCheck } from '../checks/note-check.ts';
import * as S from '../engine/scalar.ts';
import { division } from '../language/facts-divisions.ts';
import type { RowNumber } from '../language/measurement.ts';
import { figureSetting } from './figure-setting.ts';

/**
 * Why a block that speaks of scales has no drawing, to stand after `because`: `its scales are in letters, …`.
 *
 * Null for one that can be drawn, and for one without scales, of which nobody expects a drawing. Of scales in numbers
 * that nobody has read yet nothing is said either, unless `isAsked`.
 */
export function noFigure(note: NoteCheck, block: number, row: RowNumber, isAsked = false): string | null {
  if (block < 0 || note.fences <= block) return null;
  const facts = note.facts.block(block);
  const { hasCircular, hasVernier } = facts.scales();
  if (!(hasCircular || hasVernier) && !isAsked) return null;
  if (figureSetting(note, block, row) !== null) return null;
  if (isInLetters(note, block)) return LETTERS;
  return isAsked || isRead(note, block) ? UNKNOWN : null;
}

/** Why nobody can draw `1 MSD = w`. */
export const LETTERS = 'its scales are in letters, and a drawing needs numbers';

const UNKNOWN =
  'its scales, or how they stood, are not all known as numbers (`leastwise check` says what is missing)';

/** Whether something was seen on a block's scales. */
export function isRead(note: NoteCheck, block: number): boolean {
  const { measurement } = note.facts.block(block);
  return measurement.readings.size > 0 || measurement.rows.length > 0;
}

/** Whether a division of one of a block's scales is a formula in letters. */
export function isInLetters(note: NoteCheck, block: number): boolean {
  const facts = note.facts.block(block);
  const sizes = (['main', 'linear', 'vernier', 'circular', 'rotation'] as const).map(which =>
    division(facts, which),
  );
  return sizes.some(size => size !== null && S.realValue(size) === null && !S.isTooLarge(size));
}
