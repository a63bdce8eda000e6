import type { Problem } from './problem.ts';
import { type Span, spanOf } from './syntax.ts';

/** What the line that opens a fence says about the block. */
export interface FenceHeader {
  /** Whether the info string's first word makes the fence a measurement block. */
  readonly isMeasurement: boolean;
  /** The block's name, several words joined by hyphens; null for a block without one. */
  readonly name: string | null;
  /** Where the name stands, without the `#` or the braces around it. */
  readonly nameSpan: Span | null;
  readonly problems: readonly Problem[];
}

const NOT_OURS: FenceHeader = { isMeasurement: false, name: null, nameSpan: null, problems: [] };

/**
 * Reads a fence's info string: the word `measurement`, then the block's name.
 *
 * `measurement axle-sleeve`, `measurement axle sleeve`, `{.measurement #axle-sleeve}` and
 * `measurement {#axle-sleeve}` say the same; capitals in the word do not matter. A name is made of letters, digits
 * and hyphens; one with other characters in it is used with hyphens in their place, and a problem
 * offers that name. `start` is the info string's offset in the note.
 */
export function readFenceHeader(info: string, start: number): FenceHeader {
  const braced = /^\s*\{([^{}]*)\}?\s*/.exec(info);
  if (braced !== null) {
    return withStray(
      fromAttributes(braced[1]!, start + info.indexOf('{') + 1),
      info,
      braced[0].length,
      start,
    );
  }
  const opening = /^\s*measurement(?=\s|\{|$)\s*/i.exec(info);
  if (opening === null) {
    return NOT_OURS;
  }
  const rest = info.slice(opening[0].length).trimEnd();
  const restStart = start + opening[0].length;
  const attributes = /^\{([^{}]*)\}?$/.exec(rest);
  if (attributes !== null) {
    return { ...fromAttributes(`.measurement ${attributes[1]!}`, restStart + 1 - '.measurement '.length) };
  }
  return named(rest, restStart, []);
}

/** What stands behind the braces belongs to nothing, which is said; the block is ours all the same. */
function withStray(header: FenceHeader, info: string, from: number, start: number): FenceHeader {
  const rest = info.slice(from).trimEnd();
  if (rest === '' || !header.isMeasurement) return header;
  return { ...header, problems: [...header.problems, strayWord(rest, start + from)] };
}

/** Pandoc's attributes: `.class`, `#name`, `key=value`, with white space between them, in any order. */
function fromAttributes(attributes: string, start: number): FenceHeader {
  const words = [...attributes.matchAll(/(?:[^\s"']|"[^"]*"?|'[^']*'?)+/g)];
  if (!words.some(word => /^\.measurement$/i.test(word[0]))) {
    return NOT_OURS;
  }
  const name = words.find(word => word[0].startsWith('#'));
  const stray = words
    .filter(word => !/^[.#]|=/.test(word[0]))
    .map(word => strayWord(word[0], start + word.index));
  return name === undefined
    ? { isMeasurement: true, name: null, nameSpan: null, problems: stray }
    : named(name[0].slice(1), start + name.index + 1, stray);
}

function named(typed: string, start: number, problems: readonly Problem[]): FenceHeader {
  const span = spanOf(start, start + typed.length);
  const name = typed.replace(/[^\p{L}\p{M}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '');
  if (typed === '') {
    return { isMeasurement: true, name: null, nameSpan: null, problems };
  }
  if (/^[\p{L}\p{M}\p{N}\s-]+$/u.test(typed) && name !== '') {
    return { isMeasurement: true, name: typed.replace(/\s+/g, '-'), nameSpan: span, problems };
  }
  const problem: Problem = {
    rule: 'not-plain',
    span,
    message:
      `“${typed}” cannot be a block's name as it stands, since a name is made of letters, digits and hyphens` +
      (name === '' ? '' : `, so write “${name}”`),
    fixes:
      name === '' ? [] : [{ title: `Name the block ${name}`, edits: [{ span, newText: name }], sure: true }],
  };
  return {
    isMeasurement: true,
    name: name === '' ? null : name,
    nameSpan: name === '' ? null : span,
    problems: [...problems, problem],
  };
}

function strayWord(word: string, start: number): Problem {
  return {
    rule: 'not-plain',
    span: spanOf(start, start + word.length),
    message: `“${word}” beside or between the braces is neither the word .measurement nor a name, which begins with #`,
    fixes: [],
  };
}
