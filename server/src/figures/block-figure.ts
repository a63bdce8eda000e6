import type { NoteCheck } from '../checks/note-check.ts';
import { drawFigure, type Figure, type FigureStyle } from '../render/figures/draw-figure.ts';
import { figureSetting } from './figure-setting.ts';

export type { Figure, FigureStyle };

export interface FigureOptions {
  readonly style: FigureStyle;
  /** The row of a table to draw; null for the single reading, or for the first row. */
  readonly row: number | null;
  /** A small figure for a hover, without the closed position beside it; on a white ground of its own. */
  readonly small: boolean;
  /** Black on a white ground of its own, as a file needs that is shown as an image on a page of any colour. */
  readonly paper?: boolean;
  /** No wider than half a window: closed positions stand above the reading, not beside it. */
  readonly narrow?: boolean;
}

/** Draws a block's instrument; null where the block does not determine how it stands. */
export function blockFigure(note: NoteCheck, block: number, options: FigureOptions): Figure | null {
  const { style, row, small, paper = small, narrow = false } = options;
  const setting = figureSetting(note, block, row);
  return setting === null ? null : drawFigure(setting, { style, small, paper, narrow });
}
