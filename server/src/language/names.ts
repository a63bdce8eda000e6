import { changeOf } from './changes.ts';
import { isGreekName } from './greek.ts';
import type { RowNumber, Subject } from './measurement.ts';
import type { ComputedTerm, DivisionTerm, ObservableTerm, StatisticTerm } from './term-names.ts';
import { findTerm, type Term } from './terms.ts';

/** What a block gives names to, known before any of its formulas is read. */
export interface Declarations {
  readonly block: string | null;
  /** Own quantities by every way to name them (symbol, or words in small letters), to the name that stands for all. */
  readonly own: ReadonlyMap<string, string>;
  /** Names for a term's value: `mean corrected reading D`. */
  readonly symbols: ReadonlyMap<string, Subject>;
  /** Symbols for what has more words than a term: `mean of T Tm`. */
  readonly aliases: ReadonlyMap<string, string>;
  /** Row labels in small letters, to the row's number. */
  readonly labels: ReadonlyMap<string, number>;
  readonly rows: number;
  readonly uses: string | null;
  /** Whether the block's own lines speak of a screw (then main means linear) or of a vernier. */
  readonly screw: boolean;
  readonly vernier: boolean;
}

/** What stands in no block declares nothing: claims in the prose. */
export const NO_DECLARATIONS: Declarations = {
  block: null,
  own: new Map(),
  symbols: new Map(),
  aliases: new Map(),
  labels: new Map(),
  rows: 0,
  uses: null,
  screw: false,
  vernier: false,
};

/** The declarations of all named blocks of a note, by name in small letters. */
export type NoteNames = ReadonlyMap<string, Declarations>;

export interface NameContext {
  readonly here: Declarations;
  readonly note: NoteNames;
}

/** How far references of references, and blocks that use one another, are followed. */
const DEEPEST = 20;

/**
 * What a name means in a block: a term, an own quantity, `TERM of LABEL`, `TERM of BLOCK`; null for no name.
 *
 * Own symbols go before the abbreviations S, V and n. A row goes before a block, a row's label before its number.
 */
export function resolveName(text: string, names: NameContext, depth = 0): Subject | null {
  const trimmed = text.trim();
  if (trimmed === '' || depth > DEEPEST) return null;
  const plain = resolvePlain(trimmed, names, null, null);
  if (plain !== null) return plain;
  const alias = names.here.aliases.get(trimmed);
  if (alias !== undefined) return resolveName(alias, names, depth + 1);
  const from = /^(percent(?:age)? difference of .+?) from$/i.exec(trimmed);
  if (from?.[1] !== undefined) return resolveName(from[1], names, depth + 1);
  for (const at of placesOf(trimmed)) {
    const base = trimmed.slice(0, at).trim();
    const rest = trimmed.slice(at + 4).trim();
    const term = findTerm(base);
    const statistic = term === null ? null : statisticOf(term);
    if (statistic !== null && rest !== '') {
      const of = resolveName(rest, names, depth + 1);
      if (of !== null && of.kind !== 'unknown') return { kind: 'statistic', statistic, of, from: null };
    }
    const reference = resolveReference(base, rest, names);
    if (reference !== null) return reference;
  }
  return null;
}

/** Where " of " stands, from the left: the longest reference is tried with the shortest base first. */
function placesOf(text: string): readonly number[] {
  const places: number[] = [];
  for (let at = text.indexOf(' of '); at !== -1; at = text.indexOf(' of ', at + 1)) places.push(at);
  return places;
}

function resolveReference(base: string, rest: string, names: NameContext): Subject | null {
  const row = findRow(rest, names.here, names.note);
  if (row !== null) {
    const inRow = resolvePlain(base, names, row, null);
    if (inRow !== null) return inRow;
  }
  const other = names.note.get(blockKey(rest));
  if (other !== undefined) {
    const there = resolvePlain(base, { here: other, note: names.note }, null, other.block);
    if (there !== null) return there;
  }
  for (const at of placesOf(rest)) {
    const block = names.note.get(blockKey(rest.slice(at + 4)));
    if (block === undefined) continue;
    const label = findRow(rest.slice(0, at), block, names.note);
    if (label === null) continue;
    const there = resolvePlain(base, { here: block, note: names.note }, label, block.block);
    if (there !== null) return there;
  }
  return null;
}

/** `mayEndInSymbol` is false for words that stand before a symbol already. */
function resolvePlain(
  text: string,
  names: NameContext,
  row: RowNumber,
  block: string | null,
  mayEndInSymbol = true,
): Subject | null {
  const symbol = findIn(names.here, names.note, declarations => declarations.symbols.get(text) ?? null);
  if (symbol !== null) return block === null ? symbol : inBlock(symbol, block);
  const own = findIn(
    names.here,
    names.note,
    declarations =>
      declarations.own.get(text) ??
      // Words are alike in small and capital letters, symbols are not: t is no T.
      (isSymbol(text) ? null : declarations.own.get(text.toLowerCase().replace(/[\s-]+/g, ' '))) ??
      null,
  );
  if (own !== null) return { kind: 'own', name: own, row, block };
  const change = resolveChange(text, names, row, block);
  if (change !== null) return change;
  const both = mayEndInSymbol ? resolveWithSymbol(text, names, row, block) : null;
  if (both !== null) return both;
  if (text === 'N' || COUNT.test(text)) return { kind: 'count', block };
  const term = findTerm(text);
  return term === null ? null : onScrew(subjectOfTerm(term, row, block), names);
}

/** `bore b`, `corrected reading d`: words with their symbol, where both name the same thing. */
function resolveWithSymbol(
  text: string,
  names: NameContext,
  row: RowNumber,
  block: string | null,
): Subject | null {
  const [, words, symbol] = /^(.*\S) (\S+)$/.exec(text) ?? [];
  // `d d` is a product.
  if (words === undefined || symbol === undefined || isSymbol(words) || !isSymbol(symbol)) return null;
  const bySymbol = resolvePlain(symbol, names, row, block, false);
  const byWords = bySymbol === null ? null : resolvePlain(words, names, row, block, false);
  if (bySymbol === null || byWords === null) return null;
  return subjectKey(bySymbol) === subjectKey(byWords) ? bySymbol : null;
}

/** `Δm`: a quantity of one's own where a line says so, else the absolute error of the quantity m. */
function resolveChange(
  text: string,
  names: NameContext,
  row: RowNumber,
  block: string | null,
): Subject | null {
  const change = changeOf(text);
  if (change === null) return null;
  const has = (name: string): boolean =>
    findIn(names.here, names.note, ({ own, symbols }) => own.has(name) || symbols.has(name) || null) !== null;
  if (has(change.name)) return { kind: 'own', name: change.name, row, block };
  // With an angle delta, `delta m` is a product.
  if (has(change.sign) || !has(change.of)) return null;
  const of = resolvePlain(change.of, names, row, block);
  return of === null ? null : { kind: 'statistic', statistic: 'absolute error', of, from: null };
}

/** On a screw the main scale is the linear one. */
function onScrew(subject: Subject | null, names: NameContext): Subject | null {
  if (subject === null || !speaksOf('screw', names.here, names.note)) return subject;
  if (subject.kind === 'division' && subject.division === 'main scale division')
    return { ...subject, division: 'linear scale division' };
  if (subject.kind === 'term' && subject.term === 'main scale reading')
    return { ...subject, term: 'linear scale reading' };
  return subject;
}

/** The subject that a term by itself is; null for scales, records and statistics, which need more words. */
export function subjectOfTerm(term: Term, row: RowNumber, block: string | null): Subject | null {
  switch (term.kind) {
    case 'observable':
      return { kind: 'term', term: term.name as ObservableTerm, row, block };
    case 'computed':
      return { kind: 'term', term: term.name as ComputedTerm, row, block };
    case 'division':
      return { kind: 'division', division: term.name as DivisionTerm, block };
    case 'scale':
    case 'record':
    case 'statistic':
      return null;
  }
}

/** The statistic that a term is when `of` follows it: the mean absolute error and the standard deviation are both. */
export function statisticOf(term: Term): StatisticTerm | null {
  if (term.kind === 'statistic') return term.name as StatisticTerm;
  return term.name === 'mean absolute error' || term.name === 'standard deviation' ? term.name : null;
}

/** The other block that a subject belongs to; null for the one that speaks of it. */
export function blockOf(subject: Subject): string | null {
  if (subject.kind === 'statistic') return blockOf(subject.of);
  return subject.kind === 'unknown' ? null : subject.block;
}

/** The same subject, said from outside the block that it belongs to. */
export function inBlock(subject: Subject, block: string): Subject {
  switch (subject.kind) {
    case 'statistic':
      return { ...subject, of: inBlock(subject.of, block) };
    case 'unknown':
      return subject;
    default:
      return { ...subject, block: subject.block ?? block };
  }
}

function findRow(text: string, here: Declarations, note: NoteNames): number | null {
  const key = labelKey(text);
  return findIn(here, note, declarations => {
    const labelled = declarations.labels.get(key);
    if (labelled !== undefined) return labelled;
    const number = /^(?:row )?(\d{1,4})$/.exec(key)?.[1];
    return number !== undefined && Number(number) >= 1 && Number(number) <= declarations.rows
      ? Number(number)
      : null;
  });
}

/** Looks in the block's own declarations, then in those of the block that it uses, and so on. */
export function findIn<T>(
  here: Declarations,
  note: NoteNames,
  look: (declarations: Declarations) => T | null,
): T | null {
  let declarations: Declarations | undefined = here;
  for (let depth = 0; declarations !== undefined && depth <= DEEPEST; depth++) {
    const found = look(declarations);
    if (found !== null) return found;
    declarations = declarations.uses === null ? undefined : note.get(declarations.uses);
  }
  return null;
}

/** Whether a block, or one that it uses, speaks of a screw or of a vernier. */
export function speaksOf(what: 'screw' | 'vernier', here: Declarations, note: NoteNames): boolean {
  return findIn(here, note, declarations => declarations[what] || null) !== null;
}

/** A block's name as looked up: small letters, hyphens for spaces. */
export function blockKey(text: string): string {
  return text.trim().toLowerCase().replace(/\s+/g, '-');
}

/** A row's label as looked up. */
export function labelKey(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');
}

/** `pitch / no. of divisions`. */
const COUNT =
  /^(?:total )?(?:number|no\.?) of (?:(?:circular|head|vernier) (?:scale )?)?divisions(?: (?:on|of) (?:the )?(?:(?:circular|head|vernier|disc|thimble) scale|vernier|disc|drum|dial|thimble))?$/i;

const NEVER_SYMBOLS = new Set(['of', 'in', 'at', 'to', 'by', 'no', 'on', 'pi']);

/** Whether a word can be a symbol: one or two letters or a Greek letter, with digits or a subscript behind it. */
export function isSymbol(word: string): boolean {
  if (NEVER_SYMBOLS.has(word.toLowerCase())) return false;
  const match = /^([A-Za-z]+)(\d{0,3})(?:_[A-Za-z0-9]{1,12})?$/.exec(word);
  const letters = match?.[1];
  return letters !== undefined && (letters.length <= 2 || isGreekName(letters));
}

/** One text for one subject, to look it up by. */
export function subjectKey(subject: Subject): string {
  switch (subject.kind) {
    case 'term':
      return `${prefix(subject.block)}${subject.term}${subject.row === null ? '' : ` of row ${subject.row}`}`;
    case 'division':
      return `${prefix(subject.block)}1 ${subject.division}`;
    case 'count':
      return `${prefix(subject.block)}N`;
    case 'own':
      return `${prefix(subject.block)}own ${subject.name}${subject.row === null ? '' : ` of row ${subject.row}`}`;
    case 'statistic':
      return `${subject.statistic} of (${subjectKey(subject.of)})`;
    case 'unknown':
      return `?${subject.word}`;
  }
}

function prefix(block: string | null): string {
  return block === null ? '' : `[${block}] `;
}
