import { expect } from 'vitest';
import { checkedNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import type { NoteCheck } from '../../server/src/checks/note-check.ts';
import type { Derivation, Step } from '../../server/src/engine/derivation.ts';
import { evaluate, namesIn } from '../../server/src/engine/evaluation.ts';
import * as Q from '../../server/src/engine/quantity.ts';
import * as S from '../../server/src/engine/scalar.ts';
import { linesBelow } from '../../server/src/language/line-edits.ts';
import type { Subject } from '../../server/src/language/measurement.ts';
import { subjectKey } from '../../server/src/language/names.ts';
import { claimLine } from '../../server/src/render/derivation-lines.ts';
import { expressionText } from '../../server/src/render/expression-text.ts';
import { blockWorkings, type Way, workingOf } from '../../server/src/workings/working.ts';

/** A note of one block. */
export function blockNote(...lines: readonly string[]): string {
  return ['```measurement bench', ...lines, '```', ''].join('\n');
}

/** What a person reads of a working: every line with its reason in brackets before it, `~` before what no block claims. */
export function workingLines(text: string, name: string, way: Way | null = null): string[] {
  const note = examineNote(text)!;
  const found = note.measurements
    .slice(0, note.fences)
    .flatMap((_, block) => blockWorkings(note, block, { way }))
    .find(({ derivation }) => derivation.title === name);
  if (found === undefined) throw new Error(`no working ${name}`);
  return derivationLines(found.derivation);
}

/** The working of one term of a note's only block. */
export function termLines(text: string, term: string, way: Way | null = null): string[] {
  const note = examineNote(text)!;
  const subject = { kind: 'term', term, row: null, block: null } as Subject;
  const found = workingOf(note, 0, subject, { way });
  return found === null ? [] : derivationLines(found.derivation);
}

export function derivationLines(derivation: Derivation): string[] {
  return derivation.steps.flatMap(step => stepLines(step));
}

function stepLines(step: Step): string[] {
  if (step.kind === 'remark') return [`(${step.text})`];
  const reason = step.reason === null ? [] : [`(${step.reason})`];
  if (step.kind === 'table') {
    const cells = step.rows.map(row =>
      row.map(cell => (typeof cell === 'string' ? cell : expressionText(cell))).join(' | '),
    );
    return [...reason, step.header.join(' | '), ...cells];
  }
  const links = step.links.map(({ relation, value }) => ` ${relation} ${expressionText(value)}`).join('');
  return [...reason, `${step.isClaim ? '' : '~ '}${expressionText(step.left)}${links}`];
}

/** The scales, the zero and the readings: what these tests are about. */
export function isRead(subject: Subject): boolean {
  return (
    subject.kind === 'division' ||
    (subject.kind === 'term' && !/^(?:mean|standard)/.test(subject.term) && subject.block === null)
  );
}

/**
 * Wants all workings of a note to be sound, whichever way is asked for: put behind the block's own lines they add no
 * finding, and each part in numbers is worth just what the block determines.
 */
export function expectSound(text: string): void {
  const note = examineNote(text);
  if (note === null) return;
  const before = findingsOf(note);
  for (let block = 0; block < note.fences; block++) {
    for (const way of [null, 'scales'] as const) expectBlockSound(note, block, way, before);
  }
}

function expectBlockSound(
  note: NoteCheck,
  block: number,
  way: Way | null,
  before: ReadonlySet<string>,
): void {
  const { fence } = note.measurements[block]!;
  const lines: string[] = [];
  for (const { subject, derivation } of blockWorkings(note, block, { way })) {
    if (subject === null || !isRead(subject)) continue;
    const told = `${way ?? 'usual'} ${subjectKey(subject)}\n${note.text}\n${derivationLines(derivation).join('\n')}`;
    expect(derivation.steps.filter(step => step.kind === 'line' && step.isClaim).length, told).toBe(1);
    expectTrue(note, block, subject, derivation, told);
    lines.push(...derivation.steps.flatMap(step => claimLine(step) ?? []));
  }
  const last = fence.lines.findLast(line => line.text.trim() !== '') ?? null;
  const { span, newText } = linesBelow(note.text, fence, last, lines);
  const inserted = note.text.slice(0, span.start) + newText + note.text.slice(span.end);
  const added = [...findingsOf(examineNote(inserted)!)].filter(finding => !before.has(finding));
  expect(added, inserted).toEqual([]);
}

function findingsOf(note: NoteCheck): ReadonlySet<string> {
  return new Set(
    checkedNote(note)
      .findings.filter(({ waived }) => waived === null)
      .map(({ rule, message }) => `${rule}: ${message}`),
  );
}

/** Every part of the claim that has no name in it has the value of the block, exactly. */
function expectTrue(
  note: NoteCheck,
  block: number,
  subject: Subject,
  { steps }: Derivation,
  told: string,
): void {
  const truth = note.facts.block(block).value(subject);
  const claim = steps.find(step => step.kind === 'line' && step.isClaim);
  if (!truth.ok || claim?.kind !== 'line') throw new Error(`no claim: ${told}`);
  for (const { value } of claim.links) {
    if (namesIn(value).size > 0) continue;
    const worth = evaluate(value, () => ({ ok: false, trouble: { kind: 'domain', what: 'a name' } }));
    if (!worth.ok) throw new Error(`no value: ${told}`);
    const isNought = S.isZero(worth.quantity.scalar) && S.isZero(truth.quantity.scalar);
    expect(isNought || Q.equals(worth.quantity, truth.quantity), `${expressionText(value)}\n${told}`).toBe(
      true,
    );
  }
}
