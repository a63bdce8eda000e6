import { namedPlaces } from './named-places.ts';
import type { NamedPlace } from './naming.ts';
import type { OpenNote } from './open-notes.ts';

/** The name at a place of a note, and all places of what it names; null where the note names nothing there. */
export function namedAt(
  { note }: OpenNote,
  offset: number,
): { readonly at: NamedPlace; readonly all: readonly NamedPlace[] } | null {
  if (note === null) return null;
  const places = namedPlaces(note);
  const at = places.find(({ span }) => span.start <= offset && offset <= span.end);
  return at === undefined ? null : { at, all: places.filter(({ key }) => key === at.key) };
}
