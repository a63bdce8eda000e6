export { checkNote } from './checks/check.ts';
export type { CheckedBlock, CheckedNote, Finding, ReportedQuantity, Severity } from './checks/finding.ts';
