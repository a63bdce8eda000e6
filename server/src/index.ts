export type { CheckOptions, CheckResult, OffsetStretch } from './checks/check-text.ts';
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
export type { NoteFigure } from './figures/draw-note.ts';
export { check, checkNote, drawNote } from './library/library.ts';
