import { basename, dirname, extname, join, relative, sep } from 'node:path';
import { withEdits } from '../actions/settled-edits.ts';
import { examineNote } from '../checks/examine.ts';
import { lineIndex } from '../checks/line-index.ts';
import { mayTell } from '../checks/settings.ts';
import { blockFigure, type FigureStyle } from '../figures/block-figure.ts';
import { figureNames, safeName } from '../figures/figure-names.ts';
import { insertFigureEdits } from '../figures/insert-figure.ts';
import { isRead, noFigure } from '../figures/no-figure.ts';
import type { Edit } from '../language/problem.ts';
import { complain, type ExitStatus } from './complain.ts';
import { escapeControls } from './escape-controls.ts';
import { namedBlocks, unknownBlock } from './named-blocks.ts';
import { type ConfigChoice, noteSettings } from './note-settings.ts';
import { standardOutput } from './output.ts';
import { putFile } from './put-file.ts';
import { blockName, type Work } from './work-lacks.ts';
import { readTarget } from './work-target.ts';
import { writeNote } from './write-note.ts';

export interface DrawOptions {
  readonly style: FigureStyle;
  /** The folder for the files; null for the note's own, which only an insertion may choose. */
  readonly out: string | null;
  /** Whether the note gets the image lines. */
  readonly insert: boolean;
  /** Whether every row of a table is drawn, and not the first one only. */
  readonly rows: boolean;
  /** What a note from standard input is called; null where nobody says. */
  readonly stdinFilename: string | null;
  readonly config: ConfigChoice;
}

/**
 * Draws the instruments of a note's blocks as SVG files, and on request puts image lines below the blocks.
 *
 * 0: all that is asked for was drawn; 1: some of it cannot be; 2: the tool could not do its work.
 */
export async function draw(typed: string, options: DrawOptions): Promise<ExitStatus> {
  const target = await readTarget(typed, options.stdinFilename);
  if (!target.ok) return unable(target.trouble);
  if (options.insert && target.path === null)
    return unable('a note from standard input has no file to put image lines into');
  if (!options.insert && options.out === null)
    return unable('nobody said where the figures go: add --out DIR, or --insert to put them beside the note');
  const how = await noteSettings(options.config)(target.path ?? options.stdinFilename ?? '-');
  if (!how.ok) return unable(how.troubles);
  if (options.style === 'worked' && !mayTell(how.settings)) {
    complain(
      `${target.shown} is for students to work out, as ${how.config} says (\`student\`), so only --style question is drawn`,
    );
    return 1;
  }
  try {
    const note = examineNote(target.text, how.settings);
    if (note === null || note.fences === 0) {
      complain(`${target.shown} holds no measurement block, so there is nothing to draw`);
      return 1;
    }
    const blocks = namedBlocks(note, target.block);
    if (blocks === null) return unable(unknownBlock(note, target));
    return await drawn({ target, note, index: lineIndex(note.text), blocks }, options);
  } catch (error) {
    return unable(
      `${target.shown} could not be drawn, which is a fault of leastwise and not of the note (${String(error)})`,
    );
  }
}

function unable(troubles: string | readonly string[]): ExitStatus {
  for (const trouble of [troubles].flat()) complain(trouble);
  return 2;
}

async function drawn(
  work: Work,
  { style, out, insert, rows, stdinFilename }: DrawOptions,
): Promise<ExitStatus> {
  const { note, blocks, target } = work;
  const home = dirname(target.path ?? '.');
  const folder = out ?? home;
  const stem = noteStem(target.path ?? stdinFilename ?? 'note');
  // Notes that show their figures may share a folder, and so may the names of their blocks.
  const before = insert ? safeName(stem) : '';
  const names = figureNames(note, { style, rows, stem, before });
  const edits: Edit[] = [];
  const output = standardOutput();
  let count = 0;
  let isShort = false;
  for (const { block, row, file } of names) {
    if (!blocks.includes(block)) continue;
    const figure = blockFigure(note, block, { style, row, small: false, paper: true });
    if (figure === null) {
      const reason = noFigure(note, block, row, target.block !== null);
      if (reason === null) continue;
      complain(`${blockName(work, block)}: it cannot be drawn, because ${reason}`);
      // Where nobody read the scales, no drawing was to be expected.
      isShort ||= target.block !== null || isRead(note, block);
      continue;
    }
    const trouble = putFile(folder, file, figure.svg);
    if (trouble !== null) return unable(trouble);
    count += 1;
    await output.write(`${escapeControls(join(folder, file))}\n`);
    const path = relative(home, join(folder, file)).split(sep).join('/');
    if (insert) edits.push(...insertFigureEdits(note, block, figure, path));
  }
  if (target.path !== null && edits.length > 0) {
    const trouble = writeNote(target.path, target.text, withEdits(target.text, edits));
    if (trouble !== null) return unable(trouble);
  }
  const failure = await output.end();
  if (failure !== null) return unable(failure);
  if (count === 0 && !isShort)
    complain(`${target.shown} holds no scales that were read, so there is nothing to draw`);
  return count === 0 || isShort ? 1 : 0;
}

/** A note's name without its folder and its ending. */
export function noteStem(path: string): string {
  return basename(path, extname(path));
}
