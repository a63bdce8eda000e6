export { checkNote } from './checks/check.ts';
export {
  type CheckOptions,
  type CheckResult,
  checkText as check,
  type OffsetStretch,
} from './checks/check-text.ts';
export type { CheckedBlock, CheckedNote, Finding, ReportedQuantity, Severity } from './checks/finding.ts';
export type {
  BlockReport,
  EditReport,
  FindingReport,
  FixReport,
  NoteReport,
  QuantityReport,
  Stretch,
} from './checks/note-report.ts';
export { DEFAULT_SETTINGS, type Settings } from './checks/settings.ts';
export type { Figure, FigureStyle } from './figures/block-figure.ts';
export { drawNote, type NoteFigure } from './figures/draw-note.ts';
