import { firstWords, namesIn, wordsOf } from '../checks/block-groups.ts';
import { blockNamesIn, examineStructure } from '../checks/examine.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { DEFAULT_SETTINGS, type Settings } from '../checks/settings.ts';
import { declare } from '../language/declare.ts';
import { readFenceHeader } from '../language/fence-header.ts';
import { blockKey, type Declarations } from '../language/names.ts';
import { type Block, parseBlock } from '../language/parser.ts';
import type { CodeSpan, Fence, NoteStructure } from '../language/syntax.ts';
import type { Naming } from './naming.ts';

/** Some blocks of a note with all that they refer to, as if the note held nothing else. */
export interface NearBlocks {
  readonly fences: readonly Fence[];
  readonly blocks: readonly Block[];
  readonly declared: readonly Declarations[];
  /** Worked out when it is first looked at. */
  check(): NoteCheck;
}

/** What a note's names mean at one of the near blocks. */
export function namingAt(near: NearBlocks, index: number): Naming {
  const { declared } = near;
  const naming = { here: declared[index]!, declared, note: notesNames(near) };
  return {
    ...naming,
    check: near.check,
  };
}

function notesNames(near: NearBlocks): ReadonlyMap<string, Declarations> {
  const before = nearNames.get(near);
  if (before !== undefined) return before;
  const note = new Map<string, Declarations>();
  for (const names of near.declared) {
    const key = names.block === null ? '' : blockKey(names.block);
    if (key !== '' && !note.has(key)) note.set(key, names);
  }
  nearNames.set(near, note);
  return note;
}

const nearNames = new WeakMap<NearBlocks, ReadonlyMap<string, Declarations>>();

/**
 * Looks at some blocks of a note, and at the blocks that their text may name, directly or through others.
 *
 * However long the note is, no more of it is read: whatever rests on these blocks does not matter to them.
 */
export function nearBlocks(
  text: string,
  structure: NoteStructure,
  wanted: readonly Fence[],
  codeSpans: readonly CodeSpan[] = [],
  settings: Settings = DEFAULT_SETTINGS,
): NearBlocks {
  const before = known.get(structure);
  const kept = before?.settings === settings ? before.near : new Map<string, NearBlocks>();
  known.set(structure, { settings, near: kept });
  const key = [...wanted.map(({ span }) => span.start), '', ...codeSpans.map(({ start }) => start)].join();
  const near = kept.get(key) ?? freshBlocks(text, structure, wanted, codeSpans, settings);
  kept.set(key, near);
  return near;
}

const known = new WeakMap<
  NoteStructure,
  { readonly settings: Settings; readonly near: Map<string, NearBlocks> }
>();

/** The same, and nothing of it is kept. */
export function freshBlocks(
  text: string,
  structure: NoteStructure,
  wanted: readonly Fence[],
  codeSpans: readonly CodeSpan[] = [],
  settings: Settings = DEFAULT_SETTINGS,
): NearBlocks {
  const fences = withNamed(text, structure, wanted, codeSpans);
  const blocks = fences.map(parseBlock);
  const { names } = namesOf(structure);
  let made: NoteCheck | null = null;
  const examined = (): NoteCheck => {
    made ??= examineStructure(text, { fences, codeSpans }, { blockNames: names, comments: [], settings });
    return made;
  };
  return {
    fences,
    blocks,
    declared: blocks.map(block =>
      declare(block, readFenceHeader(block.fence.info, block.fence.infoSpan.start)),
    ),
    check: examined,
  };
}

/** Blocks with those that they name, in the note's order. */
function withNamed(
  text: string,
  structure: NoteStructure,
  wanted: readonly Fence[],
  codeSpans: readonly CodeSpan[],
): readonly Fence[] {
  const { byName, first } = namesOf(structure);
  const reached = new Set(wanted);
  const follow = (part: string): void => {
    for (const name of namesIn(wordsOf(part), first)) {
      const fence = byName.get(name);
      if (fence === undefined || reached.has(fence)) continue;
      reached.add(fence);
      waiting.push(fence);
    }
  };
  const waiting: Fence[] = [...wanted];
  for (const span of codeSpans) follow(span.text);
  for (let fence = waiting.pop(); fence !== undefined; fence = waiting.pop())
    follow(text.slice(fence.infoSpan.end, fence.span.end));
  return [...reached].sort((a, b) => a.span.start - b.span.start);
}

interface BlockNames {
  readonly names: readonly string[];
  /** The first block of each name, whose words are joined by hyphens. */
  readonly byName: ReadonlyMap<string, Fence>;
  readonly first: ReturnType<typeof firstWords>;
}

function namesOf(structure: NoteStructure): BlockNames {
  const before = allNames.get(structure);
  if (before !== undefined) return before;
  const byName = new Map<string, Fence>();
  for (const fence of structure.fences) {
    const words = wordsOf(readFenceHeader(fence.info, 0).name ?? '').join('-');
    if (words !== '' && !byName.has(words)) byName.set(words, fence);
  }
  const names = { names: blockNamesIn(structure.fences), byName, first: firstWords(byName.keys()) };
  allNames.set(structure, names);
  return names;
}

const allNames = new WeakMap<NoteStructure, BlockNames>();

/** The names of all blocks of a note, as typed. */
export function blockNamesOf(structure: NoteStructure): readonly string[] {
  return namesOf(structure).names;
}
