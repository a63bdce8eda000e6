import type { NoteCheck } from '../checks/note-check.ts';

/** A name longer than this is cut at a word. */
const LONGEST = 40;

/**
 * A name for a new block at a place of a note that no block of it bears: the heading above it in small letters, joined
 * by hyphens, else `block-1` and so on.
 */
export function freeBlockName(text: string, at: number, { measurements }: NoteCheck): string {
  const taken = new Set(measurements.map(({ name }) => name?.toLowerCase()));
  const heading = nameFrom(headingAbove(text.slice(0, at)));
  if (heading !== '' && !taken.has(heading)) return heading;
  const stem = heading === '' ? 'block' : heading;
  let number = heading === '' ? 1 : 2;
  while (taken.has(`${stem}-${number}`)) number += 1;
  return `${stem}-${number}`;
}

/** A heading may stand in quotes, and first in an item of a list. */
const DRESS = /^(?:[ \t>]|(?:[-*+]|\d{1,9}[.)])(?=[ \t]+#))+/;

/** The words of the last heading, of either kind; empty where there is none. */
function headingAbove(text: string): string {
  const lines = text.split(/\r\n|[\r\n]/);
  for (let index = lines.length - 1; 0 <= index; index--) {
    const line = lines[index]!.replace(DRESS, '');
    const words = /^#{1,6}[ \t]+(.*?)(?:[ \t]+#+)?[ \t]*$/.exec(line)?.[1];
    if (words !== undefined && words !== '') return words;
    const above = lines[index - 1]?.replace(DRESS, '').trim() ?? '';
    if (/^(?:={2,}|-{3,})[ \t]*$/.test(line) && /^[\p{L}\p{N}]/u.test(above)) return above;
  }
  return '';
}

function nameFrom(heading: string): string {
  const name = heading
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  if (name.length <= LONGEST) return name;
  const cut = name.slice(0, LONGEST + 1);
  return cut.includes('-') ? cut.slice(0, cut.lastIndexOf('-')) : [...name].slice(0, LONGEST / 2).join('');
}
