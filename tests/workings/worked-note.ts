import { expect } from 'vitest';
import { comparable } from '../../server/src/checks/agreement.ts';
import { checkedNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import type { NoteCheck } from '../../server/src/checks/note-check.ts';
import type { Derivation, Step } from '../../server/src/engine/derivation.ts';
import { evaluate, namesIn } from '../../server/src/engine/evaluation.ts';
import * as S from '../../server/src/engine/scalar.ts';
import { linesBelow } from '../../server/src/language/line-edits.ts';
import type { Claim, Subject } from '../../server/src/language/measurement.ts';
import { subjectKey } from '../../server/src/language/names.ts';
import { claimLine } from '../../server/src/render/derivation-lines.ts';
import { expressionText } from '../../server/src/render/expression-text.ts';
import { workingOf } from '../../server/src/workings/working.ts';

/** One claimed subject of a note with its working. */
export interface Worked {
  readonly note: NoteCheck;
  readonly block: number;
  readonly subject: Subject;
  readonly derivation: Derivation;
}

/** The workings of every subject that the blocks of a note claim or ask for, of the kinds wanted. */
export function workedIn(text: string, isWanted: (subject: Subject) => boolean): readonly Worked[] {
  const note = examineNote(text);
  if (note === null) return [];
  return note.measurements.slice(0, note.fences).flatMap((measurement, block) => {
    const done = new Set<string>();
    const asked = measurement.question.find === null ? [] : [measurement.question.find.subject];
    const subjects = [...measurement.claims.map(claim => claim.subject), ...asked];
    return subjects.flatMap(subject => {
      const key = subjectKey(subject);
      if (done.has(key) || !isWanted(subject)) return [];
      done.add(key);
      const working = workingOf(note, block, subject);
      return working === null ? [] : [{ note, block, subject, derivation: working.derivation }];
    });
  });
}

/** Wants every line that a block can claim to pass the check, behind the block's own lines and in the place of its claim. */
export function expectSilentLines({ note, block, subject, derivation }: Worked): void {
  const measurement = note.measurements[block]!;
  const lines = derivation.steps.flatMap(step => claimLine(step) ?? []);
  const before = findingsOf(note.text);
  const claim = claimAlone(measurement.claims, subject);
  if (claim !== null && lines.length > 0) {
    const put = note.text.slice(0, claim.span.start) + lines.at(-1) + note.text.slice(claim.span.end);
    expect(newFindings(before, put), lines.at(-1)).toEqual([]);
  }
  const last = measurement.fence.lines.findLast(line => line.text.trim() !== '') ?? null;
  const { span, newText } = linesBelow(note.text, measurement.fence, last, lines);
  const appended = note.text.slice(0, span.start) + newText + note.text.slice(span.end);
  expect(newFindings(before, appended), newText).toEqual([]);
}

/** A claim of one line that defines nothing else. */
function claimAlone(claims: readonly Claim[], subject: Subject): Claim | null {
  const key = subjectKey(subject);
  const claim = claims.find(one => subjectKey(one.subject) === key);
  return claim === undefined || claim.inTable || claim.symbol !== null || claim.times !== null ? null : claim;
}

function findingsOf(text: string): readonly string[] {
  const note = examineNote(text);
  if (note === null) return [];
  return checkedNote(note)
    .findings.filter(finding => finding.waived === null)
    .map(finding => `${finding.rule}: ${finding.message}`);
}

/** A waiver of what a line claims with more places than any working writes may have nothing to waive then. */
function newFindings(before: readonly string[], text: string): readonly string[] {
  return findingsOf(text).filter(
    finding => !before.includes(finding) && !finding.startsWith('unused-waiver'),
  );
}

/** Wants every part of a line that has no names in it to be worth what the line works out, the rounding of its text aside. */
export function expectTrueLinks({ note, block, subject, derivation }: Worked): void {
  const truth = note.facts.block(block).value(subject);
  const last = derivation.steps.findLast(step => step.kind === 'line' && step.isClaim);
  if (last?.kind !== 'line' || !truth.ok) return;
  for (const { value } of last.links) {
    if (namesIn(value).size > 0) continue;
    const got = evaluate(value, () => ({ ok: false, trouble: { kind: 'zero-division' } }));
    const pair = got.ok ? comparable(truth.quantity, got.quantity) : null;
    expect(pair !== null && S.equals(pair.truth.scalar, pair.stated.scalar), expressionText(value)).toBe(
      true,
    );
  }
}

/** A derivation as plain lines: claims with a star, reasons in brackets. */
export function readableLines({ title, steps }: Derivation): string {
  return [title, ...steps.flatMap(stepLines)].join('\n');
}

function stepLines(step: Step): readonly string[] {
  switch (step.kind) {
    case 'line': {
      const links = step.links.map(({ relation, value }) => `${relation} ${expressionText(value)}`);
      const line = `${step.isClaim ? '* ' : ''}${[expressionText(step.left), ...links].join(' ')}`;
      return step.reason === null ? [line] : [`(${step.reason})`, line];
    }
    case 'table': {
      const rows = step.rows.map(cells =>
        cells.map(cell => (typeof cell === 'string' ? cell : expressionText(cell))).join(' | '),
      );
      const lines = [step.header.join(' | '), ...rows].map(row => `| ${row} |`);
      return step.reason === null ? lines : [`(${step.reason})`, ...lines];
    }
    case 'remark':
      return [step.text];
  }
}
