import { type BlockGroup, blockGroups, wordsOf } from '../../../server/src/checks/block-groups.ts';
import { blockNamesIn, examineStructure } from '../../../server/src/checks/examine.ts';
import type { Settings } from '../../../server/src/checks/settings.ts';
import { noteReader } from '../../../server/src/language/note-reader.ts';
import type { SetMath } from '../../../server/src/render/card-html.ts';
import { type BlockParts, blockParts, partsHtml } from './block-parts.ts';

/** The cards of one note that is being written: what did not change is not worked out again. */
export interface NoteCards {
  /** The HTML below each block, by the line in which its fence opens, counted from 0. */
  at(text: string, settings: Settings): ReadonlyMap<number, string>;
}

/** Begins to follow a note; the last figure of a block stays while one of its lines cannot be read. */
export function noteCards(setMath: SetMath): NoteCards {
  let read = noteReader();
  let known: {
    readonly text: string;
    readonly settings: string;
    readonly cards: ReadonlyMap<number, string>;
  } | null = null;
  let kept: ReadonlyMap<string, readonly BlockParts[]> = new Map();
  let figures: ReadonlyMap<string, string> = new Map();
  return {
    at(text, settings) {
      const how = JSON.stringify(settings);
      if (known?.text === text && known.settings === how) return known.cards;
      if (known?.settings !== how) {
        // What was shown to a tutor must not stay for a student.
        kept = new Map();
        figures = new Map();
        read = noteReader();
      }
      const structure = read(text);
      const names = blockNamesIn(structure.fences);
      const next = new Map<string, readonly BlockParts[]>();
      const byStart = new Map<number, BlockParts>();
      for (const group of blockGroups(text, structure.fences, structure.codeSpans, wordsOf)) {
        const key = keyOf(text, group, names);
        const parts = kept.get(key) ?? next.get(key) ?? partsOf(text, group, names, settings, setMath);
        next.set(key, parts);
        for (const [at, fence] of group.fences.entries()) byStart.set(fence.span.start, parts[at]!);
      }
      const shown = new Map<string, string>();
      const cards = new Map<number, string>();
      const times = new Map<string, number>();
      const lineAt = lineFinder(text);
      for (const [at, { span }] of structure.fences.entries()) {
        const parts = byStart.get(span.start);
        if (parts === undefined) continue;
        const who = nameIn(shown, parts.name ?? `#${at}`);
        const last = figures.get(who) ?? null;
        const figure = parts.isBroken && last !== null ? last : parts.figure;
        if (figure !== null) shown.set(who, figure);
        cards.set(lineAt(span.start), partsHtml(parts, withOwnIds(figure, times), figure !== parts.figure));
      }
      kept = next;
      figures = shown;
      known = { text, settings: how, cards };
      return cards;
    },
  };
}

/** Of two figures that are the same the second has ids of its own, for a page has each but once. */
function withOwnIds(figure: string | null, times: Map<string, number>): string | null {
  if (figure === null) return null;
  const count = (times.get(figure) ?? 0) + 1;
  times.set(figure, count);
  if (count === 1) return figure;
  return figure.replace(/ (?:id|aria-labelledby)="[^"]*"/g, ids =>
    ids.replace(/-(title|desc)\b/g, `-${count}-$1`),
  );
}

/** Of two blocks with one name each keeps its own figure. */
function nameIn(shown: ReadonlyMap<string, string>, name: string): string {
  let free = name;
  for (let count = 2; shown.has(free); count++) free = `${name} ${count}`;
  return free;
}

/** All that the cards of a group rest on. */
function keyOf(text: string, { fences, codeSpans }: BlockGroup, names: readonly string[]): string {
  return [
    ...fences.map(({ span, prefix }) => `${prefix}${text.slice(span.start, span.end)}`),
    ...codeSpans.map(span => span.text),
    // A reference to no block is answered with the blocks that there are.
    ...names,
  ].join('\0');
}

function partsOf(
  text: string,
  group: BlockGroup,
  names: readonly string[],
  settings: Settings,
  setMath: SetMath,
): readonly BlockParts[] {
  const check = examineStructure(text, group, { blockNames: names, comments: [], settings });
  return blockParts(check, setMath);
}

/** Says in which line a place stands; asked in the order of the note. */
function lineFinder(text: string): (offset: number) => number {
  let line = 0;
  let at = 0;
  return offset => {
    for (;;) {
      const next = text.indexOf('\n', at);
      if (next === -1 || offset <= next) return line;
      line += 1;
      at = next + 1;
    }
  };
}
