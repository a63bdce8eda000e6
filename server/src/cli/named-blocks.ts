import type { NoteCheck } from '../checks/note-check.ts';
import { blockKey } from '../language/names.ts';
import type { Work } from './work-lacks.ts';

/** The numbers of the blocks that are meant: one by its name, or all; null where the note has none of that name. */
export function namedBlocks(note: NoteCheck, name: string | null): readonly number[] | null {
  if (name === null) return Array.from({ length: note.fences }, (_, block) => block);
  const block = note.facts.indexOf(blockKey(name));
  return block === null || note.fences <= block ? null : [block];
}

/** Says which blocks a note has, where one was asked for that it has not. */
export function unknownBlock(note: NoteCheck, { shown, block }: Work['target']): string {
  const names = note.measurements.slice(0, note.fences).flatMap(({ name }) => name ?? []);
  const [last] = names.slice(-1);
  if (last === undefined) return `${shown} has no block ${block}: none of its blocks has a name`;
  const before = names.slice(0, -1).join(', ');
  return `${shown} has no block ${block}: ${before === '' ? `its only name is ${last}` : `its blocks are ${before} and ${last}`}`;
}
