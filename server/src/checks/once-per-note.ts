import type { NoteCheck } from './note-check.ts';

/** Looks at a note once, however many rules ask: what is found lives as long as the note does. */
export function oncePerNote<Found extends object>(
  look: (note: NoteCheck) => Found,
): (note: NoteCheck) => Found {
  const known = new WeakMap<NoteCheck, Found>();
  return note => {
    const before = known.get(note);
    if (before !== undefined) return before;
    const found = look(note);
    known.set(note, found);
    return found;
  };
}
