import { findTerm } from '../language/terms.ts';

/**
 * What a line of prose may say that no block can hold as it stands: each possibility as the lines it would be.
 *
 *     T = 2.01 s, 1.99 s               a list is a record: T: 2.01 s, 1.99 s
 *     least count 0.01 cm              a term and its value: least count: 0.01 cm
 *     MSR = 41°, vernier coincidence 7     two facts
 */
export function likelyLines(line: string): readonly (readonly string[])[] {
  if (LONGEST < line.length) return [];
  return [...asList(line), ...asRecord(line), ...asSeveral(line)];
}

/** A line of prose that is longer, in characters, is no statement. */
const LONGEST = 500;

function asList(line: string): readonly (readonly string[])[] {
  const list = /^([^=:,;]+?)\s*=\s*([-+−.\d][^=:;]*,\s*[-+−.\d][^=:;]*)$/.exec(line);
  return list === null ? [] : [[`${list[1]!}: ${list[2]!}`]];
}

/** The longest term that a value follows without a sign between them. */
function asRecord(line: string): readonly (readonly string[])[] {
  const words = line.split(/[ \t]+/, 7);
  for (let count = words.length - 1; 0 < count; count--) {
    const value = words[count]!;
    if (!/^[-+−]?\.?\d/.test(value)) continue;
    const name = words.slice(0, count).join(' ');
    const isName = /^[\p{L}. ]+$/u.test(name) && findTerm(name.replace(/^the /i, '')) !== null;
    if (isName) return [[`${name}: ${line.slice(line.search(/[-+−.\d]/)).trimStart()}`]];
  }
  return [];
}

function asSeveral(line: string): readonly (readonly string[])[] {
  const parts = line.split(/[;,][ \t]+(?=[\p{L}\d(])/u).map(part => part.trim());
  const isStated = parts.some(part => /[=:≈]/.test(part));
  // `2.01 s, 1.99 s` are values of one list.
  const isEachNamed = parts.every(part => /\p{L}/u.test(part) && !/^[-+−.\d]+[ \t]*\p{L}*$/u.test(part));
  return 1 < parts.length && isStated && isEachNamed ? [parts] : [];
}
