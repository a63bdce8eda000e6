import { mayTell } from '../checks/settings.ts';
import { blockFigure, type Figure, type FigureStyle } from '../figures/block-figure.ts';
import { figureNames, safeName } from '../figures/figure-names.ts';
import { figureSetting } from '../figures/figure-setting.ts';
import { insertFigureEdits } from '../figures/insert-figure.ts';
import { isInLetters, LETTERS } from '../figures/no-figure.ts';
import type { Action, ActionContext } from './action.ts';
import { blockAt } from './places.ts';

const STYLES: readonly (readonly [FigureStyle, string])[] = [
  ['worked', 'Insert the figure below the block, with the reading explained'],
  ['question', 'Insert the figure below the block, as a question'],
];

const UNABLE: Action = {
  title: 'Insert the figure below the block',
  kind: 'refactor.rewrite',
  finding: null,
  unable: `There is no figure of this block, because ${LETTERS}`,
  isSure: false,
  edits: () => [],
};

/**
 * Draws the instrument of the block at the cursor: a file beside the note, and its image line below the block. On
 * offer where the note has a place for files; said to be impossible of scales in letters. For students nothing is
 * marked in it.
 */
export function insertFigure(context: ActionContext): readonly Action[] {
  const { note, noteName = null } = context;
  const facts = noteName === null ? null : blockAt(context);
  if (noteName === null || facts === null) return [];
  const block = facts.index;
  if (figureSetting(note, block, null) === null) return isInLetters(note, block) ? [UNABLE] : [];
  return STYLES.flatMap(([style, title]): readonly Action[] => {
    if (style === 'worked' && !mayTell(note.settings)) return [];
    const before = safeName(noteName);
    let drawn: Figure | null | undefined;
    const figure = (): Figure | null => {
      if (drawn === undefined)
        drawn = blockFigure(note, block, { style, row: null, small: false, paper: true });
      return drawn;
    };
    const file = (): string =>
      figureNames(note, { style, rows: false, stem: noteName, before }).find(each => each.block === block)
        ?.file ?? `${before}.svg`;
    return [
      {
        title,
        kind: 'refactor.rewrite',
        finding: null,
        isSure: false,
        edits() {
          const made = figure();
          return made === null ? [] : insertFigureEdits(note, block, made, file());
        },
        newFile() {
          const made = figure();
          return made === null ? null : { name: file(), content: made.svg };
        },
      },
    ];
  });
}
