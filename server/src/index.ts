export { checkNote } from './checks/check.ts';
export type { CheckedBlock, CheckedNote, Finding, ReportedQuantity, Severity } from './checks/finding.ts';
export { DEFAULT_SETTINGS, type Settings } from './checks/settings.ts';
export type { Figure, FigureStyle } from './figures/block-figure.ts';
export { drawNote, type NoteFigure } from './figures/draw-note.ts';
