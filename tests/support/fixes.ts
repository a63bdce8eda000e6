import { expect } from 'vitest';
import type { CheckedNote } from '../../server/src/checks/finding.ts';
import { lineIndex, placeAt } from '../../server/src/cli/line-index.ts';
import type { Edit, Fix } from '../../server/src/language/problem.ts';

/** The note with a fix's edits made. */
export function withFix(text: string, fix: Fix): string {
  let mended = text;
  for (const { span, newText } of [...fix.edits].sort((a, b) => b.span.start - a.span.start)) {
    mended = mended.slice(0, span.start) + newText + mended.slice(span.end);
  }
  return mended;
}

/** Tries every fix of every finding: it removes its finding, and a sure one flags no line that was right before. */
export function expectFixesMend(text: string, checkNote: (text: string) => CheckedNote): void {
  const before = checkNote(text).findings;
  const faults: string[] = [];
  for (const finding of before) {
    for (const fix of finding.fixes) {
      const mended = withFix(text, fix);
      const after = checkNote(mended).findings;
      const told = `line ${lineOf(text, finding.span.start)}, ${finding.rule}, the fix "${fix.title}"`;
      const start = moved(finding.span.start, fix.edits);
      const end = moved(finding.span.end, fix.edits);
      const stays = after.some(
        ({ rule, span }) => rule === finding.rule && span.start <= end && start <= span.end,
      );
      if (stays) faults.push(`${told} leaves its finding`);
      if (!fix.sure) continue;
      const flagged = new Set(before.map(each => lineOf(mended, moved(each.span.start, fix.edits))));
      for (const each of after) {
        const line = lineOf(mended, each.span.start);
        if (!flagged.has(line)) faults.push(`${told} adds ${each.rule} in line ${line}: ${each.message}`);
      }
    }
  }
  expect(faults, faults.join('\n')).toEqual([]);
}

/** Where an offset stands after the edits. */
function moved(offset: number, edits: readonly Edit[]): number {
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
