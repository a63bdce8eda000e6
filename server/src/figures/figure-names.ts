import type { NoteCheck } from '../checks/note-check.ts';
import { contentName } from '../render/figures/svg.ts';
import type { FigureStyle } from './block-figure.ts';

export interface NamedFigure {
  readonly block: number;
  /** The table's row; null for the single reading, or for the first row. */
  readonly row: number | null;
  /** The file's name without its folder: `axle-sleeve.svg`, `axle-sleeve-question.svg`, `dish-plate.svg`. */
  readonly file: string;
}

/**
 * Names the files of a note's figures: by the blocks, the rows of a table by their labels, a block without a name by
 * the note and its number. All differ, also where capitals do not count, and none leads out of its folder.
 *
 * `rows` asks for a figure of every row, where there are several; else each block has one. `before` begins every name.
 */
export function figureNames(
  note: NoteCheck,
  {
    style,
    rows,
    stem,
    before = '',
  }: {
    readonly style: FigureStyle;
    readonly rows: boolean;
    /** The note's name without its ending. */
    readonly stem: string;
    readonly before?: string;
  },
): readonly NamedFigure[] {
  const taken = new Set<string>();
  return note.measurements.slice(0, note.fences).flatMap((measurement, block) => {
    const name = safeName(measurement.name ?? `${stem}-${block + 1}`);
    const each = rows && measurement.rows.length > 1 ? measurement.rows : [null];
    return each.map((row): NamedFigure => {
      const parts = [
        before,
        name,
        row === null ? '' : safeName(row.label ?? String(row.number)),
        style === 'question' ? style : '',
      ];
      return {
        block,
        row: row?.number ?? null,
        file: `${unlike(taken, parts.filter(part => part !== '').join('-'))}.svg`,
      };
    });
  });
}

/** File systems take 255 bytes; a sign may have four. */
const LONGEST = 40;
/** Windows keeps these for itself, whatever their ending. */
const KEPT = /^(?:con|prn|aux|nul|com\d|lpt\d)$/i;

/** A name of letters, digits and hyphens, as the names of blocks are; long ones that begin alike stay different. */
export function safeName(name: string): string {
  const plain = name.normalize('NFC').replace(/[^\p{L}\p{N}\p{M}]+/gu, '-');
  const trimmed = cut(plain.replace(/^-+|-+$/g, ''));
  if (trimmed === '') return 'figure';
  return KEPT.test(trimmed) ? `block-${trimmed}` : trimmed;
}

/** The beginning of a long name, and a short one for all of it. */
function cut(name: string): string {
  const signs = [...name];
  if (signs.length <= LONGEST) return name;
  const tail = contentName(name);
  return `${signs.slice(0, LONGEST - tail.length - 1).join('')}-${tail}`;
}

function unlike(taken: Set<string>, name: string): string {
  let free = name;
  for (let count = 2; taken.has(free.toLowerCase()); count++) free = `${name}-${count}`;
  taken.add(free.toLowerCase());
  return free;
}
