import { adoptGivens } from '../language/adopt.ts';
import { readFenceHeader } from '../language/fence-header.ts';
import { readNote } from '../language/fences.ts';
import { interpretNote, namesOfBlocks } from '../language/interpret.ts';
import { parseBlock } from '../language/parser.ts';
import type { Fence, NoteStructure } from '../language/syntax.ts';
import { withUsedBlocks } from '../language/uses.ts';
import { type WorkingComment, workingComments } from '../language/working-comments.ts';
import { judgeNote } from './judge.ts';
import type { NoteCheck } from './note-check.ts';
import { DEFAULT_SETTINGS, type Settings, withConventions } from './settings.ts';

/**
 * A note taken apart and judged: its blocks, what their records determine, and a verdict on each claim.
 *
 * `text` is the whole Markdown note. Null where nothing of it concerns us.
 */
export function examineNote(text: string, settings: Settings = DEFAULT_SETTINGS): NoteCheck | null {
  const structure = readNote(text);
  const { fences, problems, comments } = structure;
  const nothing = fences.length === 0 && problems === undefined && comments === undefined;
  return nothing ? null : examineStructure(text, structure, { settings });
}

/** What is known of a note beside its structure; by default what the structure says. */
interface Known {
  /** The names of all blocks of the note, told to whoever names none of them. */
  readonly blockNames?: readonly string[];
  readonly comments?: readonly WorkingComment[];
  readonly settings?: Settings;
}

/** The same for a note whose blocks have been found; for some of them only, what is left out does not exist. */
export function examineStructure(
  text: string,
  structure: NoteStructure,
  {
    blockNames = blockNamesIn(structure.fences),
    comments = workingComments(text, structure),
    settings = DEFAULT_SETTINGS,
  }: Known = {},
): NoteCheck {
  const { fences, codeSpans, problems } = structure;
  const blocks = fences.map(fence => ({
    block: parseBlock(fence),
    header: readFenceHeader(fence.info, fence.infoSpan.start),
  }));
  const typed = withUsedBlocks(interpretNote(blocks, codeSpans, blockNames), blockNames);
  const { measurements, assumed, facts } = adoptGivens(withConventions(typed, settings));
  return {
    text,
    settings,
    problems: problems ?? [],
    comments,
    measurements,
    fences: blocks.length,
    facts,
    assumed,
    verdicts: judgeNote(measurements, facts, assumed),
  };
}

/** The names of the blocks that are opened by these fences. */
export function blockNamesIn(fences: readonly Fence[]): readonly string[] {
  return namesOfBlocks(fences.map(({ info }) => readFenceHeader(info, 0)));
}
