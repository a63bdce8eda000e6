import { examineNote } from '../checks/examine.ts';
import { blockFigure, type Figure, type FigureStyle } from '../figures/block-figure.ts';
import type { Entry } from './entry.ts';
import { DRAWN_INSTRUMENTS, README_NOTE } from './figure-notes.ts';

/** The drawings that stand on the pages, each by the name of what its page tells. */
export interface PageFigures {
  readonly rules: ReadonlyMap<string, Figure>;
  readonly slips: ReadonlyMap<string, Figure>;
  readonly instruments: ReadonlyMap<string, Figure>;
  /** Those of the README, by their files. */
  readonly readme: ReadonlyMap<string, Figure>;
}

/** Where a look at the scales says what the words say: the example is drawn as it is right. */
const DRAWN_RULES = ['impossible-reading', 'wrong-value'];
const DRAWN_SLIPS = [
  'forward-rule',
  'half-turn-missed',
  'mark-at-coincidence',
  'next-mark',
  'zero-correction-left-out',
  'zero-correction-sign',
  'zero-correction-twice',
];

/** Draws them all; what has no drawing is left out. */
export function pageFigures(rules: readonly Entry[], slips: readonly Entry[]): PageFigures {
  const readme = (['question', 'worked'] as const).flatMap(style => {
    const figure = firstFigure(README_NOTE, style);
    return figure === null ? [] : [[`seat-post-${style}.svg`, figure] as const];
  });
  return {
    rules: drawn(rules.filter(({ name }) => DRAWN_RULES.includes(name))),
    slips: drawn(slips.filter(({ name }) => DRAWN_SLIPS.includes(name))),
    instruments: new Map(
      [...DRAWN_INSTRUMENTS].flatMap(([name, note]) => {
        const figure = firstFigure(note, 'worked');
        return figure === null ? [] : [[name, figure] as const];
      }),
    ),
    readme: new Map(readme),
  };
}

function drawn(entries: readonly Entry[]): ReadonlyMap<string, Figure> {
  return new Map(
    entries.flatMap(({ name, example, fixedExample }) => {
      const figure = firstFigure(fixedExample ?? example, 'worked');
      return figure === null ? [] : [[name, figure] as const];
    }),
  );
}

/**
 * The first block of a note that has a drawing. On a white ground of its own: an image on a page knows nothing of the
 * colours around it, and the theme that a reader has chosen for a site is not the one that a style inside the image is
 * asked about.
 */
function firstFigure(text: string, style: FigureStyle): Figure | null {
  const note = examineNote(text);
  if (note === null) return null;
  for (let block = 0; block < note.fences; block++) {
    const figure = blockFigure(note, block, { style, row: null, small: false, paper: true });
    if (figure !== null) return figure;
  }
  return null;
}
