import { readFenceHeader } from '../language/fence-header.ts';
import type { NoteText } from '../language/note-text.ts';
import type { CodeSpan, Fence } from '../language/syntax.ts';

/** Blocks that refer to one another, with the claims about them in the prose: what must be checked together. */
export interface BlockGroup {
  readonly fences: readonly Fence[];
  readonly codeSpans: readonly CodeSpan[];
}

/**
 * Parts a note's blocks into groups that do not depend on each other.
 *
 * A block belongs with every block whose name its text holds, whatever the name may mean there: rather too many
 * together than one apart. Claims in the prose that name no block are in no group.
 */
export function blockGroups(
  text: string,
  fences: readonly Fence[],
  codeSpans: readonly CodeSpan[],
  wordsIn: (text: string) => readonly string[] = wordsOf,
): readonly BlockGroup[] {
  const named = byName(fences.map(nameWords));
  const names = firstWords(named.keys());
  const texts = [...fences.map(fence => ownText(text, fence)), ...codeSpans.map(span => span.text)];
  const found = texts.map(part => namesIn(wordsIn(part), names));
  return united(named, found, fences.length).map(numbers => numbered({ fences, codeSpans }, numbers));
}

/** The same by the numbers of the blocks and of the claims in the prose. */
export interface GroupNumbers {
  readonly fences: readonly number[];
  readonly codeSpans: readonly number[];
}

/**
 * Does the same for a note that is being written. `contents` has an object for each block, the same one as long as its
 * text stays the same: then it is not read again, and looked through again only where the blocks have other names than
 * before. The groups are the same objects as long as no block and no claim changes but in its place.
 */
export function blockGrouper(): (
  text: Sliced,
  { fences, codeSpans }: BlockGroup,
  contents: readonly object[],
) => readonly GroupNumbers[] {
  const known = new WeakMap<object, KnownText>();
  let names: Names = { all: '', byFirst: new Map() };
  let before: {
    readonly contents: readonly object[];
    readonly blocks: readonly KnownText[];
    readonly spans: string;
    readonly groups: readonly GroupNumbers[];
  } | null = null;
  const knownOf = (text: Sliced, fence: Fence, content: object): KnownText => {
    const read = known.get(content);
    if (read !== undefined) return read;
    const now = {
      name: nameWords(fence),
      words: wordsOf(ownText(text, fence)),
      names: null,
      found: new Set<string>(),
    };
    known.set(content, now);
    return now;
  };
  return (text, { fences, codeSpans }, contents) => {
    const spans = codeSpans.map(span => span.text).join('\0');
    if (before !== null && before.spans === spans && isSameList(before.contents, contents))
      return before.groups;
    const blocks = fences.map((fence, index) => knownOf(text, fence, contents[index]!));
    const isNamedAlike = before !== null && alike(before.blocks, blocks, (a, b) => a.name === b.name);
    const named = isNamedAlike ? null : byName(blocks.map(({ name }) => name));
    if (named !== null) names = namesOf(named, names);
    for (const block of blocks) {
      if (block.names === names) continue;
      block.names = names;
      block.found = namesIn(block.words, names.byFirst);
    }
    if (before !== null && isNamedAlike && before.spans === spans) {
      if (alike(before.blocks, blocks, (a, b) => isSameSet(a.found, b.found))) {
        before = { ...before, contents, blocks };
        return before.groups;
      }
    }
    const inSpans = codeSpans.map(span => namesIn(wordsOf(span.text), names.byFirst));
    const groups = united(
      named ?? byName(blocks.map(({ name }) => name)),
      [...blocks.map(({ found }) => found), ...inSpans],
      fences.length,
    );
    before = { contents, blocks, spans, groups };
    return groups;
  };
}

function namesOf(named: ReadonlyMap<string, unknown>, before: Names): Names {
  const all = [...named.keys()].join(' ');
  return all === before.all ? before : { all, byFirst: firstWords(named.keys()) };
}

/** Whether two lists of blocks are of one length, and what stands at each place is the same or like it. */
function alike(
  one: readonly KnownText[],
  other: readonly KnownText[],
  isLike: (a: KnownText, b: KnownText) => boolean,
): boolean {
  return (
    one.length === other.length &&
    one.every((block, index) => block === other[index] || isLike(block, other[index]!))
  );
}

function isSameSet(one: ReadonlySet<string>, other: ReadonlySet<string>): boolean {
  return one.size === other.size && [...one].every(each => other.has(each));
}

/** Whether two lists hold the same objects. */
export function isSameList(one: readonly object[], other: readonly object[]): boolean {
  if (one.length !== other.length) return false;
  for (let index = 0; index < one.length; index++) if (one[index] !== other[index]) return false;
  return true;
}

/** The blocks and claims of a note that have some numbers. */
export function numbered({ fences, codeSpans }: BlockGroup, numbers: GroupNumbers): BlockGroup {
  return {
    fences: numbers.fences.map(number => fences[number]!),
    codeSpans: numbers.codeSpans.map(number => codeSpans[number]!),
  };
}

/** A text of which pieces can be had. */
type Sliced = Pick<NoteText, 'slice'>;

/** A block's words, and which of the `names` were found among them. */
interface KnownText {
  readonly name: string;
  readonly words: readonly string[];
  names: Names | null;
  found: ReadonlySet<string>;
}

interface Names {
  readonly all: string;
  readonly byFirst: ReturnType<typeof firstWords>;
}

/** The words of a block's name, joined by hyphens. */
function nameWords({ info }: Fence): string {
  return wordsOf(readFenceHeader(info, 0).name ?? '').join('-');
}

function ownText(text: Sliced, { infoSpan, span }: Fence): string {
  return text.slice(infoSpan.end, span.end);
}

/** The numbers of the blocks of each name. */
function byName(names: readonly string[]): ReadonlyMap<string, readonly number[]> {
  const named = new Map<string, number[]>();
  for (const [index, name] of names.entries()) if (name !== '') push(named, name, index);
  return named;
}

/** Puts together what bears the same name, and what names it; `found` has the names in each of so many blocks, then in each code span. */
function united(
  named: ReadonlyMap<string, readonly number[]>,
  found: readonly ReadonlySet<string>[],
  blocks: number,
): readonly GroupNumbers[] {
  const parents = found.map((_, index) => index);
  for (const indexes of named.values()) for (const index of indexes) unite(parents, indexes[0]!, index);
  for (const [index, names] of found.entries())
    for (const name of names) unite(parents, named.get(name)![0]!, index);
  return gathered(parents, blocks);
}

const WORD = /[\p{L}\p{N}]+/gu;

/** The words of a text in small letters; a name of several words is some of them in a row. */
export function wordsOf(text: string): readonly string[] {
  // A copy of its own: a word that was cut out of the note would keep all of it in memory.
  return `${text} `.toLowerCase().match(WORD) ?? [];
}

/** Names by their first word, each as all of its words. */
export function firstWords(names: Iterable<string>): ReadonlyMap<string, readonly (readonly string[])[]> {
  const byFirst = new Map<string, (readonly string[])[]>();
  for (const name of names) {
    const words = name.split('-');
    push(byFirst, words[0]!, words);
  }
  return byFirst;
}

const NONE: readonly (readonly string[])[] = [];

/** The names that stand somewhere in a text, taken apart into words; in `names` by their first word. */
export function namesIn(
  words: readonly string[],
  names: ReadonlyMap<string, readonly (readonly string[])[]>,
): ReadonlySet<string> {
  const found = new Set<string>();
  for (let at = 0; at < words.length; at++) {
    for (const name of names.get(words[at]!) ?? NONE) {
      if (name.every((part, offset) => words[at + offset] === part)) found.add(name.join('-'));
    }
  }
  return found;
}

/** Those that have the same root; a code span that shares it with no block is in none. */
function gathered(parents: number[], blocks: number): readonly GroupNumbers[] {
  const groups = new Map<number, { fences: number[]; codeSpans: number[] }>();
  for (let index = 0; index < blocks; index++) {
    const root = rootOf(parents, index);
    const group = groups.get(root) ?? { fences: [], codeSpans: [] };
    groups.set(root, group);
    group.fences.push(index);
  }
  for (let index = blocks; index < parents.length; index++)
    groups.get(rootOf(parents, index))?.codeSpans.push(index - blocks);
  return [...groups.values()];
}

function rootOf(parents: number[], index: number): number {
  let root = index;
  while (parents[root] !== root) root = parents[root]!;
  // Every part on the way is put right below the root, so that no later way is long.
  for (let at = index; at !== root; ) {
    const next = parents[at]!;
    parents[at] = root;
    at = next;
  }
  return root;
}

function unite(parents: number[], a: number, b: number): void {
  const [first, second] = [rootOf(parents, a), rootOf(parents, b)];
  parents[Math.max(first, second)] = Math.min(first, second);
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const values = map.get(key);
  if (values === undefined) map.set(key, [value]);
  else values.push(value);
}
