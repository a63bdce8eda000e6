import { namedPlaces } from './named-places.ts';
import type { NamedPlace } from './naming.ts';
import { type NotePart, notePartAt } from './note-part.ts';
import type { OpenNote } from './open-notes.ts';

/**
 * The name at a place of a note, and all places of what it names; null where the note names nothing there.
 *
 * However long the note is, only the blocks are looked at that refer to one another there.
 */
export function namedAt(
  open: Pick<OpenNote, 'document' | 'text' | 'settings'>,
  offset: number,
): { readonly at: NamedPlace; readonly all: readonly NamedPlace[] } | null {
  const part = notePartAt(open, offset);
  if (part === null) return null;
  const places = placesKnown.get(part) ?? namedPlaces(part);
  placesKnown.set(part, places);
  const at = places.find(({ span }) => span.start <= offset && offset <= span.end);
  return at === undefined ? null : { at, all: places.filter(({ key }) => key === at.key) };
}

const placesKnown = new WeakMap<NotePart, readonly NamedPlace[]>();
