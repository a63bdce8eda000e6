import type { Claim, Measurement } from '../language/measurement.ts';
import { blockKey, blockOf } from '../language/names.ts';
import { RULES } from './all.ts';
import { withBalancedDress } from './balanced-dress.ts';
import { checkedBlock } from './checked-block.ts';
import { examineNote } from './examine.ts';
import type { CheckedNote, Finding } from './finding.ts';
import { withLineBreaks } from './line-breaks.ts';
import type { NoteCheck } from './note-check.ts';
import { reportedQuantities } from './reported-quantities.ts';
import { DEFAULT_SETTINGS, mayTell, type Settings } from './settings.ts';
import { studentFinding } from './student-findings.ts';
import { withoutUnsureFixes } from './unsure-fixes.ts';
import { applyWaivers } from './waivers.ts';

/**
 * Checks a note: every stated least count, reading, correction and result against what the records make it.
 *
 * `text` is the whole Markdown note; spans are offsets into it. `settings` say how to look at it, by default as usual. Never throws on anything that a note may hold.
 */
export function checkNote(text: string, settings: Settings = DEFAULT_SETTINGS): CheckedNote {
  const note = examineNote(text, settings);
  return note === null ? { blocks: [], findings: [] } : checkedNote(note);
}

/** What a check reports of a note that was examined. */
export function checkedNote(note: NoteCheck): CheckedNote {
  const isStudents = !mayTell(note.settings);
  const findings = withoutUnsureFixes(
    note,
    RULES.flatMap(rule => rule.run(note)),
  );
  const inProse = claimsInProse(note);
  const blocks = note.facts
    .blocks()
    .slice(0, note.fences)
    .map(block => {
      const { measurement } = block;
      const { name, fence } = measurement;
      const claims = claimCount(measurement) + (inProse.get(measurement) ?? 0);
      return checkedBlock({ name, span: fence.span, claims }, () => reportedQuantities(block, isStudents));
    });
  const counted = asSet(settled(note, findings), note.settings);
  return { blocks, findings: inOrder(isStudents ? counted.map(studentFinding) : counted) };
}

/** Findings with fixes that suit the note where they stand, some of them waived. */
function settled(note: NoteCheck, findings: readonly Finding[]): readonly Finding[] {
  return withLineBreaks(note.text, withBalancedDress(note.text, applyWaivers(note, findings)));
}

/** Findings as grave as the settings have them; what is off is not reported. */
function asSet(findings: readonly Finding[], { rules }: Settings): readonly Finding[] {
  return findings.flatMap(finding => {
    const severity = rules[finding.rule] ?? finding.severity;
    return severity === 'off' ? [] : [severity === finding.severity ? finding : { ...finding, severity }];
  });
}

/** Claims that state something; `= ?` only asks. */
function claimCount(measurement: Measurement): number {
  return measurement.claims.filter(isStated).length + measurement.sums.filter(isStated).length;
}

function isStated({ links }: Claim): boolean {
  return links.some(link => link.content.kind === 'stated');
}

/** How much the prose claims of each block. */
function claimsInProse({ measurements, fences }: NoteCheck): ReadonlyMap<Measurement, number> {
  const counts = new Map<Measurement, number>();
  if (measurements.length === fences) return counts;
  const named = new Map<string, Measurement>();
  for (const measurement of measurements.slice(0, fences).reverse())
    named.set(blockKey(measurement.name ?? ''), measurement);
  for (const { subject } of measurements.slice(fences).flatMap(({ claims }) => claims.filter(isStated))) {
    const block = named.get(blockKey(blockOf(subject) ?? ''));
    if (block !== undefined) counts.set(block, (counts.get(block) ?? 0) + 1);
  }
  return counts;
}

/** Findings in the order of their places. */
export function inOrder(findings: readonly Finding[]): readonly Finding[] {
  return [...findings].sort(
    (a, b) =>
      a.span.start - b.span.start ||
      a.span.end - b.span.end ||
      (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0),
  );
}
