import { examineNote } from '../../server/src/checks/examine.ts';
import { blockFigure, type Figure, type FigureOptions } from '../../server/src/figures/block-figure.ts';

/** The figure of a note that is one block of these lines; null where nothing is drawn. */
export function figureOrNull(
  lines: readonly string[],
  options: Partial<FigureOptions>,
  name = 'bench',
): Figure | null {
  const note = examineNote([`\`\`\`measurement ${name}`, ...lines, '```', ''].join('\n'));
  if (note === null) throw new Error('no block');
  return blockFigure(note, 0, { style: 'question', row: null, small: false, ...options });
}

export function drawnFigure(lines: readonly string[], options: Partial<FigureOptions>): Figure {
  const figure = figureOrNull(lines, options);
  if (figure === null) throw new Error(`no figure of\n${lines.join('\n')}`);
  return figure;
}
