export { checkNote } from './checks/check.ts';
export { DEFAULT_SETTINGS, type Settings } from './checks/settings.ts';
export type { CheckedBlock, CheckedNote, Finding, ReportedQuantity, Severity } from './checks/finding.ts';
