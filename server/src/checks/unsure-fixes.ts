import type { Measurement } from '../language/measurement.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { Finding } from './finding.ts';
import type { NoteCheck } from './note-check.ts';
import { isHere } from './record-lacks.ts';

/** Rules whose fixes write what the block's other lines determine. */
const BY_VALUE: ReadonlySet<RuleName> = new Set([
  'wrong-value',
  'carried-forward',
  'early-rounding',
  'stated-precision',
  'given-disagrees',
  'taken-as-given',
  'undetermined',
  'wrong-key',
  'no-right-option',
  'several-right-options',
] satisfies RuleName[]);

/**
 * Findings whose fixes wait for what could not be read: a value may be another one when all lines are read, and a waiver
 * that is misspelt may mean the finding.
 */
export function withoutUnsureFixes(note: NoteCheck, findings: readonly Finding[]): readonly Finding[] {
  const doubtful = note.measurements.filter(
    ({ unread, sentences, halfWaived }) => unread.size + sentences.size + halfWaived.size > 0,
  );
  if (doubtful.length === 0) return findings;
  return findings.map(finding => {
    if (finding.fixes[0]?.sure !== true) return finding;
    const home = doubtful.find(measurement => isHere(measurement, finding.span));
    if (home === undefined || !mustWait(home, finding.rule)) return finding;
    return { ...finding, fixes: finding.fixes.map(fix => ({ ...fix, sure: false })) };
  });
}

function mustWait({ unread, sentences, halfWaived }: Measurement, rule: RuleName): boolean {
  if (halfWaived.has(rule)) return true;
  if (unread.has('waive')) return rule !== 'unknown-term';
  return BY_VALUE.has(rule) && unread.size + sentences.size > 0;
}
