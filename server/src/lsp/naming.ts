import type { NoteCheck } from '../checks/note-check.ts';
import { blockKey, type Declarations, type NoteNames } from '../language/names.ts';
import type { Span } from '../language/syntax.ts';

/** What the names of a note mean at one of its blocks. */
export interface Naming {
  check(): NoteCheck;
  readonly here: Declarations;
  /** Of all blocks, in the note's order. */
  readonly declared: readonly Declarations[];
  readonly note: NoteNames;
}

/** What a note itself gives a name to: a block, a row of a table, a quantity (or a symbol for a term). */
export type NamedKind = 'block' | 'label' | 'quantity';

/** A place where such a name stands. */
export interface NamedPlace {
  /** The same for all places of one thing. */
  readonly key: string;
  readonly kind: NamedKind;
  /** The name as this place spells it: a quantity may have a symbol and words. */
  readonly spelling: string;
  readonly span: Span;
  readonly isDeclaration: boolean;
}

/** A block by its name; null where the note has none. */
export function blockPlace(
  { note, declared }: Naming,
  span: Span,
  name: string,
  isDeclaration: boolean,
): NamedPlace | null {
  const block = note.get(blockKey(name));
  if (block === undefined) return null;
  return { key: `block ${declared.indexOf(block)}`, kind: 'block', spelling: name, span, isDeclaration };
}

/** A row of a block's table by its number. */
export function labelPlace(
  { declared }: Naming,
  block: Declarations,
  row: number,
  place: Pick<NamedPlace, 'spelling' | 'span' | 'isDeclaration'>,
): NamedPlace {
  return { key: `label ${declared.indexOf(block)}:${row}`, kind: 'label', ...place };
}

/** A quantity by one of its names; null where no block declares it. */
export function placeOfName(
  naming: Naming,
  span: Span,
  spelling: string,
  isDeclaration: boolean,
  owner: Declarations | undefined = naming.here,
): NamedPlace | null {
  let from: Declarations | undefined = owner;
  for (let depth = 0; from !== undefined && depth < DEEPEST; depth++) {
    const name = declaredName(from, spelling);
    if (name !== null)
      return {
        key: `quantity ${naming.declared.indexOf(from)}:${name}`,
        kind: 'quantity',
        spelling,
        span,
        isDeclaration,
      };
    from = from.uses === null ? undefined : naming.note.get(from.uses);
  }
  return null;
}

/** How far blocks that use blocks are followed. */
export const DEEPEST = 6;

function declaredName({ own, symbols, aliases }: Declarations, spelling: string): string | null {
  const name = own.get(spelling) ?? own.get(spelling.toLowerCase().replace(/[\s-]+/g, ' '));
  return name ?? (symbols.has(spelling) || aliases.has(spelling) ? spelling : null);
}
