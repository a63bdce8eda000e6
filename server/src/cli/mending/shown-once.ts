import type { NoteShare } from '../bank/note-work.ts';

/**
 * Shows the fixes of each file but once, under whatever names it is found: a program that applies a diff takes the second
 * time for a wish to undo the first. To be given the shares in their order, whichever threads they come from.
 */
export function shownOnce(): (share: NoteShare) => NoteShare {
  const files = new Set<string>();
  return share => {
    const { shownFile } = share;
    if (shownFile === null) return share;
    if (files.has(shownFile)) return { ...share, fixes: 0, shown: '' };
    files.add(shownFile);
    return share;
  };
}
