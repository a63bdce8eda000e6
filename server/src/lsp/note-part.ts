import { type BlockGroup, blockGroups } from '../checks/block-groups.ts';
import { blockNamesIn, examineStructure } from '../checks/examine.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import type { Settings } from '../checks/settings.ts';
import { readFenceHeader } from '../language/fence-header.ts';
import { blockKey } from '../language/names.ts';
import type { Fence, NoteStructure } from '../language/syntax.ts';
import { type WorkingComment, workingComments } from '../language/working-comments.ts';
import { fenceAt, noteStructure } from './note-structure.ts';
import type { OpenNote } from './open-notes.ts';

/** Blocks of a note that belong together, with what the prose and the comments say of them: all that their names can mean. */
export interface NotePart extends BlockGroup {
  readonly text: string;
  /** The workings and figures that name one of the blocks. */
  readonly comments: readonly WorkingComment[];
  /** Worked out when it is first looked at. */
  check(): NoteCheck;
}

/** The part of a note to which the block, the code span or the comment at a place belongs; null where there is none. */
export function notePartAt(
  { document, text, settings }: Pick<OpenNote, 'document' | 'text' | 'settings'>,
  offset: number,
): NotePart | null {
  const structure = noteStructure({ document, text });
  const comments = commentsOf(text, structure);
  const group = groupAt(groupsOf(text, structure), structure, comments, offset);
  if (group === null) return null;
  const before = partsKnown.get(group);
  if (before?.settings === settings) return before.part;
  const part = notePart(text, structure, group, settings, comments);
  partsKnown.set(group, { settings, part });
  return part;
}

/** Lasts as long as the text: a name is asked for wherever the cursor rests. */
const partsKnown = new WeakMap<BlockGroup, { readonly settings: Settings; readonly part: NotePart }>();

/** Some groups of a note's blocks as if the note held nothing else. */
export function notePart(
  text: string,
  structure: NoteStructure,
  { fences, codeSpans }: BlockGroup,
  settings: Settings,
  comments: readonly WorkingComment[] = [],
): NotePart {
  const keys = new Set(fences.map(keyOf));
  const own = comments.filter(({ name }) => name !== null && keys.has(blockKey(name)));
  let made: NoteCheck | null = null;
  const examined = (): NoteCheck => {
    const blockNames = blockNamesIn(structure.fences);
    made ??= examineStructure(text, { fences, codeSpans }, { blockNames, comments: own, settings });
    return made;
  };
  return {
    text,
    fences,
    codeSpans,
    comments: own,
    check: examined,
  };
}

function groupAt(
  groups: readonly BlockGroup[],
  structure: NoteStructure,
  comments: readonly WorkingComment[],
  offset: number,
): BlockGroup | null {
  const comment = comments.find(({ opening }) => opening.start <= offset && offset <= opening.end);
  const fence = comment === undefined ? fenceAt(structure, offset) : namedBy(structure, comment);
  if (fence !== null) return groups.find(({ fences }) => fences.includes(fence)) ?? null;
  // Where the span ends in the note is left to the claim that stands in it.
  const span = structure.codeSpans.findLast(({ start }) => start <= offset);
  return (span && groups.find(({ codeSpans }) => codeSpans.includes(span))) ?? null;
}

function namedBy({ fences }: NoteStructure, { name }: WorkingComment): Fence | null {
  if (name === null) return null;
  const key = blockKey(name);
  return fences.find(fence => keyOf(fence) === key) ?? null;
}

function keyOf({ info }: Fence): string | null {
  const { name } = readFenceHeader(info, 0);
  return name === null ? null : blockKey(name);
}

/** Which blocks of a note belong together; worked out once for each text. */
export function groupsOf(text: string, structure: NoteStructure): readonly BlockGroup[] {
  const before = groupsKnown.get(structure);
  if (before !== undefined) return before;
  const groups = blockGroups(text, structure.fences, structure.codeSpans);
  groupsKnown.set(structure, groups);
  return groups;
}

const groupsKnown = new WeakMap<NoteStructure, readonly BlockGroup[]>();

function commentsOf(text: string, structure: NoteStructure): readonly WorkingComment[] {
  const before = commentsKnown.get(structure);
  if (before !== undefined) return before;
  const comments = workingComments(text, structure);
  commentsKnown.set(structure, comments);
  return comments;
}

const commentsKnown = new WeakMap<NoteStructure, readonly WorkingComment[]>();
