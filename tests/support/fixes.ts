import { expect } from 'vitest';
import { mendedNote } from '../../server/src/actions/fix-all.ts';
import type { CheckedNote, Finding } from '../../server/src/checks/finding.ts';
import { lineIndex, placeAt } from '../../server/src/checks/line-index.ts';
import type { Edit, Fix } from '../../server/src/language/problem.ts';

type CheckNote = (text: string) => CheckedNote;

/** The note with a fix's edits made. */
export function withFix(text: string, fix: Fix): string {
  let mended = text;
  for (const { span, newText } of [...fix.edits].sort((a, b) => b.span.start - a.span.start)) {
    mended = mended.slice(0, span.start) + newText + mended.slice(span.end);
  }
  return mended;
}

/**
 * Tries every fix of every finding that is not waived: it removes its finding, and a sure one flags no line that was
 * right before.
 *
 * What a sure fix brings to light may be mended by the sure fixes of other lines: of three readings that become rows of
 * a table the first alone gives another mean.
 */
export function expectFixesMend(text: string, checkNote: CheckNote): void {
  const before = standing(text, checkNote);
  const faults: string[] = [];
  for (const finding of before) {
    for (const fix of finding.fixes) {
      const mended = withFix(text, fix);
      const after = standing(mended, checkNote);
      const told = `line ${lineOf(text, finding.span.start)}, ${finding.rule}, the fix "${fix.title}"`;
      const start = moved(finding.span.start, fix.edits);
      const end = moved(finding.span.end, fix.edits);
      const stays = after.some(
        ({ rule, span }) => rule === finding.rule && span.start <= end && start <= span.end,
      );
      if (stays) faults.push(`${told} leaves its finding`);
      if (!fix.sure) continue;
      const flagged = new Set(before.map(each => lineOf(mended, moved(each.span.start, fix.edits))));
      const added = after.filter(each => !flagged.has(lineOf(mended, each.span.start)));
      if (added.length === 0) continue;
      const left = standing(fixAll(mended, checkNote), checkNote);
      for (const each of added) {
        if (!left.some(({ rule, message }) => rule === each.rule && message === each.message)) continue;
        const line = lineOf(mended, each.span.start);
        faults.push(`${told} adds ${each.rule} in line ${line}: ${each.message}`);
      }
    }
  }
  expect(faults, faults.join('\n')).toEqual([]);
}

/**
 * Makes all sure fixes of a note at once, checks it again, and so on until none is left.
 *
 * Throws where a text comes back that was there before, for then the fixes would go round for ever; also where the rounds
 * do not suffice, or the edits do not make of the note what the rounds made.
 */
export function fixAll(text: string, checkNote: CheckNote): string {
  const mended = mendedNote(text, checkNote);
  if (mended.end === 'ring') throw new Error('the fixes go round in a ring');
  if (mended.end === 'rounds') throw new Error('after all rounds there are still sure fixes to make');
  expect(withFix(text, { title: 'Fix all', edits: mended.edits, sure: true })).toBe(mended.text);
  return mended.text;
}

/** The findings that nobody has waived. */
function standing(text: string, checkNote: CheckNote): readonly Finding[] {
  return checkNote(text).findings.filter(({ waived }) => waived === null);
}

/** Where an offset stands after the edits. */
export function moved(offset: number, edits: readonly Edit[]): number {
  let shift = 0;
  for (const { span, newText } of edits) {
    if (span.end <= offset) shift += newText.length - (span.end - span.start);
    else if (span.start < offset) shift += Math.min(0, span.start - offset + newText.length);
  }
  return offset + shift;
}

function lineOf(text: string, offset: number): number {
  return placeAt(lineIndex(text), offset).line;
}
