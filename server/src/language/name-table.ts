import { changeOf } from './changes.ts';
import type { Subject } from './measurement.ts';
import {
  type Declarations,
  findIn,
  labelKey,
  type NameContext,
  type NoteNames,
  resolveName,
  subjectKey,
} from './names.ts';
import type { NameTable } from './parser-state.ts';
import { tokensText } from './statement-dress.ts';
import type { Token } from './syntax.ts';
import { beginsTerm } from './terms.ts';

/** No name has more words than this. */
const LONGEST = 14;

/** The names of a block for the formula parser: subjects by key, the longest first. */
export function nameTable(
  names: NameContext,
): NameTable & { readonly subjects: ReadonlyMap<string, Subject> } {
  const subjects = new Map<string, Subject>();
  const known = new Map<string, Subject | null>();
  let found: ReadonlySet<string> | null = null;
  const labels = (): ReadonlySet<string> => {
    found ??= labelsOf(names);
    return found;
  };
  const resolve = (text: string): Subject | null => {
    const before = known.get(text);
    if (before !== undefined) return before;
    const subject = resolveName(text, names);
    known.set(text, subject);
    return subject;
  };
  return {
    subjects,
    longestName(tokens, index) {
      const first = tokens[index];
      if (first === undefined || first.kind !== 'word' || !beginsName(first.text, names)) return null;
      let best: { key: string; length: number; text: string } | null = null;
      const take = (text: string, length: number): void => {
        const subject = resolve(text);
        if (subject === null) return;
        const key = subjectKey(subject);
        subjects.set(key, subject);
        // The last point of `V.S.D.` belongs to it.
        const point = tokens[index + length];
        const dotted = text.includes('.') && point !== undefined && point.text === '.' && !point.spaced;
        const whole = dotted ? length + 1 : length;
        if (whole > (best?.length ?? 0)) best = { key, length: whole, text: changeOf(text)?.name ?? text };
      };
      const readOn = (before: string, from: number): void => {
        let text = before;
        let length = from;
        while (length < LONGEST) {
          const token = tokens[index + length];
          if (token === undefined || !continuesName(tokens, index + length, length)) break;
          text += length > 0 && token.spaced ? ` ${token.text}` : token.text;
          length += 1;
          if (token.kind === 'operator') continue;
          take(text, length);
          const label = token.text === 'of' ? labelAt(tokens, index + length, labels()) : 0;
          if (label === 0) continue;
          const row = `${text} ${tokensText(tokens.slice(index + length, index + length + label))}`;
          take(row, length + label);
          readOn(row, length + label);
        }
      };
      readOn('', 0);
      return best;
    },
  };
}

/** Whether a word can begin a name here: of a term, of a quantity of the block, of one that it uses or that the note has, or a count. */
function beginsName(word: string, { here, note }: NameContext): boolean {
  if (beginsTerm(word) || /^(?:no|number|total|row|delta)$/i.test(word)) return true;
  if (findIn(here, note, declarations => (beginsOwn(declarations, word) ? true : null)) !== null) return true;
  return firstWordsIn(note).has(word.toLowerCase());
}

/** How many tokens the longest row's label takes that stands at a place: `lens 2`, `a/b`, `top (left)`; 0 for none. */
function labelAt(tokens: readonly Token[], at: number, labels: ReadonlySet<string>): number {
  if (labels.size === 0) return 0;
  let longest = 0;
  for (let length = 1; length <= LONGEST && at + length <= tokens.length; length++) {
    const last = tokens[at + length - 1]!;
    // A spaced minus takes something off the row.
    if (last.text === '-' && last.spaced) break;
    if (labels.has(labelKey(tokensText(tokens.slice(at, at + length))))) longest = length;
  }
  return longest;
}

/** The labels of all rows that a block may speak of: its own and those of the note's named blocks. */
function labelsOf({ here, note }: NameContext): ReadonlySet<string> {
  let known = rowLabels.get(note);
  if (known === undefined) {
    known = new Set([...note.values()].flatMap(({ labels }) => [...labels.keys()]));
    rowLabels.set(note, known);
  }
  return here.labels.size === 0 ? known : new Set([...known, ...here.labels.keys()]);
}

const rowLabels = new WeakMap<NoteNames, ReadonlySet<string>>();

/** What the names of any block's quantities begin with, for `tau of pendulum` in another block, in small letters. */
function firstWordsIn(note: NoteNames): ReadonlySet<string> {
  const before = firstWords.get(note);
  if (before !== undefined) return before;
  const words = new Set<string>();
  for (const { own, symbols, aliases } of note.values())
    for (const names of [own, symbols, aliases])
      for (const name of names.keys()) words.add(name.toLowerCase().split(/[ -]/, 1)[0]!);
  firstWords.set(note, words);
  return words;
}

const firstWords = new WeakMap<NoteNames, ReadonlySet<string>>();

function beginsOwn(declarations: Declarations, word: string): boolean {
  if (declarations.own.has(word) || declarations.symbols.has(word) || declarations.aliases.has(word))
    return true;
  const small = word.toLowerCase();
  for (const name of declarations.own.keys())
    if (name.length > small.length && name.startsWith(small)) return true;
  return false;
}

/** Words, numbers behind "of", and hyphens or points within a name. */
function continuesName(tokens: readonly Token[], index: number, length: number): boolean {
  const token = tokens[index]!;
  if (token.kind === 'word') return true;
  if (length === 0) return false;
  const before = tokens[index - 1]!;
  if (token.kind === 'number')
    return before.kind === 'word' ? /^(?:of|row)$/i.test(before.text) : before.text === '-' && !token.spaced;
  const next = tokens[index + 1];
  if (token.text === '.' && !token.spaced && next?.text === 'of') return true;
  if (token.kind !== 'operator' || next === undefined) return false;
  const tight = !token.spaced && !next.spaced;
  return (
    tight && (token.text === '-' || token.text === '.') && (next.kind === 'word' || next.kind === 'number')
  );
}
