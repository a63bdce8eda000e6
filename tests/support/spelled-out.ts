import type { NoteStructure } from '../../server/src/language/syntax.ts';

/** A structure whose fences have their lines as properties of their own, to be compared. */
export function spelledOut(structure: NoteStructure): NoteStructure {
  return { ...structure, fences: structure.fences.map(fence => ({ ...fence, lines: fence.lines })) };
}
