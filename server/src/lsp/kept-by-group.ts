import type { TextDocument } from 'vscode-languageserver-textdocument';
import { type BlockGroup, blockGroups, wordsOf } from '../checks/block-groups.ts';
import { DEFAULT_SETTINGS, type Settings } from '../checks/settings.ts';
import type { Fence } from '../language/syntax.ts';
import { freshBlocks, type NearBlocks, nearBlocks } from './near-blocks.ts';
import { noteStructure } from './note-structure.ts';
import type { OpenNote } from './open-notes.ts';

/** What was found in one block, at offsets from its start. */
export interface FoundInBlock<Found> {
  readonly fence: Fence;
  readonly found: readonly Found[];
}

/** So few blocks, as a screen shows, are looked at afresh: that is faster than to find out what has changed. */
const FEW = 30;

/**
 * Looks for something in the blocks of a part of a note, for each block by itself: `look` gives it at offsets from the
 * block's start.
 *
 * For a whole note what was found is kept, and blocks are looked at again only where their text, or that of a block
 * which belongs with them, has changed.
 */
export function keptByGroup<Found>(
  look: (near: NearBlocks, index: number) => readonly Found[],
): (
  open: Pick<OpenNote, 'document' | 'text'>,
  isWanted: (fence: Fence) => boolean,
  settings?: Settings,
) => readonly FoundInBlock<Found>[] {
  const known = new WeakMap<TextDocument, Kept<Found>>();
  return ({ document, text }, isWanted, settings = DEFAULT_SETTINGS) => {
    const structure = noteStructure({ document, text });
    const wanted = structure.fences.filter(isWanted);
    const lookAt = (fences: readonly Fence[], blocks: typeof nearBlocks): readonly (readonly Found[])[] => {
      const near = blocks(text, structure, fences, [], settings);
      const places = new Map(near.fences.map((fence, index) => [fence, index]));
      return fences.map(fence => look(near, places.get(fence)!));
    };
    if (wanted.length <= FEW) {
      const found = wanted.length === 0 ? [] : lookAt(wanted, nearBlocks);
      return wanted.map((fence, index) => ({ fence, found: found[index]! }));
    }
    const before = known.get(document);
    const stays = before?.settings === settings ? before : undefined;
    const words = new Map<string, readonly string[]>();
    const wordsIn = (part: string): readonly string[] => {
      const found = before?.words.get(part) ?? wordsOf(part);
      words.set(part, found);
      return found;
    };
    const groups = new Map<string, readonly (readonly Found[])[]>();
    const byFence = new Map<Fence, readonly Found[]>();
    for (const group of blockGroups(text, structure.fences, [], wordsIn)) {
      const key = groupKey(text, group);
      const found = stays?.groups.get(key) ?? groups.get(key) ?? lookAt(group.fences, freshBlocks);
      groups.set(key, found);
      for (const [index, fence] of group.fences.entries()) byFence.set(fence, found[index]!);
    }
    known.set(document, { settings, words, groups });
    return wanted.map(fence => ({ fence, found: byFence.get(fence)! }));
  };
}

interface Kept<Found> {
  readonly settings: Settings;
  readonly words: ReadonlyMap<string, readonly string[]>;
  readonly groups: ReadonlyMap<string, readonly (readonly Found[])[]>;
}

/** A copy of its own: a text that was cut out of the note would keep all of it in memory. */
function groupKey(text: string, { fences }: BlockGroup): string {
  return fences
    .map(({ span, prefix }) => `${prefix}\0${text.slice(span.start, span.end)}`)
    .join('\0')
    .concat(' ');
}
