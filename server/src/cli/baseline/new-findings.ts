import type { CheckedNote, Finding } from '../../checks/finding.ts';
import { type RecordedFinding, recordedFinding, recordedKey } from './recorded-finding.ts';

/** A note without its old findings. */
export interface NewFindings {
  readonly checked: CheckedNote;
  /** What was left out. */
  readonly seen: readonly RecordedFinding[];
}

/**
 * Leaves out what is recorded, as often as it is recorded; of findings that are alike the first in the note are the old
 * ones. What is waived counts anyhow as nothing. With `recorded` null every finding is old: it is about to be recorded.
 */
export function newFindings(
  checked: CheckedNote,
  text: string,
  recorded: readonly RecordedFinding[] | null,
): NewFindings {
  if (recorded?.length === 0) return { checked, seen: [] };
  const left = new Map((recorded ?? []).map(finding => [recordedKey(finding), finding.count]));
  const seen: RecordedFinding[] = [];
  const isNew = (finding: Finding): boolean => {
    if (finding.waived !== null) return true;
    const its = recordedFinding(finding, text);
    const key = recordedKey(its);
    const rest = recorded === null ? 1 : (left.get(key) ?? 0);
    if (rest === 0) return true;
    left.set(key, rest - 1);
    seen.push(its);
    return false;
  };
  const findings = checked.findings.filter(isNew);
  return { checked: { ...checked, findings }, seen };
}
