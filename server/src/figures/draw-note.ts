import { examineNote } from '../checks/examine.ts';
import type { Settings } from '../checks/settings.ts';
import { blockFigure, type Figure, type FigureStyle } from './block-figure.ts';

/** The drawing of one block of a note. */
export interface NoteFigure {
  /** The block's name; null for a block without one. */
  readonly block: string | null;
  readonly figure: Figure;
}

/**
 * Draws every block of a note whose scales are determined, in the order of the note; of a table its first row.
 *
 * `text` is the whole Markdown note. Where the settings are those of a student, only the style of a question is drawn.
 */
export function drawNote(text: string, style: FigureStyle, settings?: Settings): readonly NoteFigure[] {
  const note = examineNote(text, settings);
  if (note === null) return [];
  const drawn = note.settings.student ? 'question' : style;
  return note.measurements.slice(0, note.fences).flatMap((measurement, block) => {
    const figure = blockFigure(note, block, { style: drawn, row: null, small: false });
    return figure === null ? [] : [{ block: measurement.name, figure }];
  });
}
