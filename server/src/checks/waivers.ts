import { withoutLines } from '../language/line-edits.ts';
import type { Measurement } from '../language/measurement.ts';
import type { Finding } from './finding.ts';
import { findingAt } from './finding-from.ts';
import type { NoteCheck } from './note-check.ts';
import { isHere } from './record-lacks.ts';

/** Turns waived findings off, each with its reason; a waiver that waives nothing is a finding itself. */
export function applyWaivers(note: NoteCheck, findings: readonly Finding[]): readonly Finding[] {
  const unused: Finding[] = [];
  let result = findings;
  for (const measurement of note.measurements) {
    for (const waiver of measurement.waivers) {
      let used = false;
      result = result.map(finding => {
        if (finding.rule !== waiver.rule || !isAbout(measurement, finding)) return finding;
        used = true;
        return finding.waived === null ? { ...finding, waived: waiver.reason } : finding;
      });
      // Of a rule that is off nobody knows here whether it would have found something.
      if (used || note.settings.rules[waiver.rule] === 'off') continue;
      const edit = withoutLines(measurement.fence, waiver.span);
      unused.push(
        findingAt({ name: 'unused-waiver', severity: 'warning' }, measurement, waiver.span, {
          message: `this waives ${waiver.rule}, but the block has no such finding, so the line can go`,
          fixes: edit === null ? [] : [{ title: 'Take the waiver out', edits: [edit], sure: true }],
        }),
      );
    }
  }
  return [...result, ...unused];
}

/** Whether a finding stands in a block, or is one about what stands below it. */
function isAbout(measurement: Measurement, { rule, span, related }: Finding): boolean {
  if (rule !== 'stale-working') return isHere(measurement, span);
  return related.some(place => isHere(measurement, place.span));
}
