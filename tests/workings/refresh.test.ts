import { describe, expect, it } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import { insertWorkingEdits, renewWorkingEdits } from '../../server/src/workings/insert-working.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';
import { digests, inserted } from './inserted-note.ts';

/** The note with every working renewed that can be. */
function renewed(text: string): string {
  const note = examineNote(text)!;
  return withEdits(
    text,
    note.comments.flatMap((_, at) => renewWorkingEdits(note, at)),
  );
}

const rulesIn = (text: string): readonly string[] => checkNote(text).findings.map(({ rule }) => rule);
const worked = (text: string): string => inserted(text, insertWorkingEdits);
/** The next line in coincidence, with all that follows from it: the block agrees, its working does not. */
const changed = (text: string): string =>
  text
    .replace('coinciding division: 17', 'coinciding division: 18')
    .replace('2.45 cm + 17 × 0.002 cm = 2.484 cm', '2.45 cm + 18 × 0.002 cm = 2.486 cm')
    .replace('corrected reading = 2.478 cm', 'corrected reading = 2.480 cm');

describe('a working in a note', () => {
  const note = worked(RIGHT_NOTE);

  it('stands below its block between the comment lines', () => {
    const [digest] = digests(RIGHT_NOTE);
    expect(note.startsWith(RIGHT_NOTE.trimEnd())).toBe(true);
    const below = note.slice(RIGHT_NOTE.trimEnd().length);
    expect(below).toMatch(new RegExp(`^\n\n<!-- working: axle-sleeve ${digest} -->\n\n`));
    expect(below).toMatch(/\n\n<!-- end working -->\n$/);
    expect(below).toContain('2.478');
    expect(rulesIn(note)).toEqual([]);
  });

  it('is not inserted a second time, whatever its words', () => {
    const reworded = note.replace(
      /(3f2a9c|[0-9a-f]{6}) -->\n[\s\S]*?\n<!-- end/,
      '$1 -->\nIn our own words.\n<!-- end',
    );
    expect(reworded).toContain('In our own words.');
    expect(worked(note)).toBe(note);
    expect(worked(reworded)).toBe(reworded);
    expect(renewed(reworded)).toBe(reworded);
    expect(rulesIn(reworded)).toEqual([]);
  });

  it('is stale when a record changes, and is renewed', () => {
    const stale = changed(note);
    expect(rulesIn(stale)).toEqual(['stale-working']);
    const fresh = worked(changed(RIGHT_NOTE));
    expect(fresh).toContain('2.480');
    expect(renewed(stale)).toBe(fresh);
    expect(worked(stale)).toBe(fresh);
    expect(renewed(fresh)).toBe(fresh);
  });

  it('stays when the block says the same in another way', () => {
    const [first = '', ...lines] = RIGHT_NOTE.split('```')[1]!.trimEnd().split('\n');
    const records = lines.filter(line => line.includes(':')).reverse();
    const other = note
      .replace(lines.join('\n'), records.join('\n\n'))
      .replace('main scale reading: 2.45 cm', 'MSR : 24.5mm   # on the mark')
      .replace('main scale: 1 cm = 20 MSD', '1 MSD: 0.5 mm');
    expect(other).toContain(first);
    expect(other).toContain('24.5mm');
    expect(rulesIn(other)).toEqual([]);
  });

  it.each([
    ['the end is missing', note.replace('<!-- end working -->\n', '')],
    ['the end stands twice', `${note}\nMore.\n\n<!-- end working -->\n`],
    ['the end stands in a list', note.replace('<!-- end working -->', '- so\n\n  <!-- end working -->')],
    ['the block is gone', note.replace('working: axle-sleeve', 'working: axle')],
  ])('is never written over where %s', (_, broken) => {
    const stale = changed(broken);
    expect(rulesIn(stale)).toEqual(['stale-working']);
    expect(renewed(stale)).toBe(stale);
    if (!_.includes('gone')) expect(worked(stale)).toBe(stale);
  });

  it('is left alone where the block waives that it is stale', () => {
    const stale = changed(note).replace('\n```\n', '\nwaive: stale-working, kept as an example\n```\n');
    expect(checkNote(stale).findings.map(({ rule, waived }) => [rule, waived])).toEqual([
      ['stale-working', 'kept as an example'],
    ]);
    expect(renewed(stale)).toBe(stale);
    expect(worked(stale)).toBe(stale);
  });

  it('is left alone where nothing can be worked out any more', () => {
    const empty = note.replace(/main scale: [\s\S]*?\n```/, '\n```');
    expect(rulesIn(empty)).toContain('stale-working');
    expect(renewed(empty)).toBe(empty);
  });
});

describe('where a block stands, its working stands', () => {
  const block = RIGHT_NOTE.slice(RIGHT_NOTE.indexOf('```'), -1);
  const indented = (prefix: string): string =>
    block
      .split('\n')
      .map(line => `${prefix}${line}`.trimEnd())
      .join('\n');

  it.each([
    ['at the margin', block, ''],
    ['at the end without a line break', block, ''],
    ['right above a paragraph', `${block}\nThe sleeve fits.\n`, ''],
    ['in a list', `1. Read twice:\n\n${indented('   ')}\n2. Then take the mean.\n`, '   '],
    ['on the line of an item', `- ${indented('  ').trimStart()}\n`, '  '],
    ['in a quote', `${indented('> ')}\n\nThe sleeve fits.\n`, '> '],
    ['in a list within a quote', `> - so\n>\n${indented('>   ')}\n`, '>   '],
    ['in a fence that nothing closes', block.slice(0, -4), ''],
    ['in one that ends with a line break', block.slice(0, -3), ''],
    ['in one that ends with blank lines', `${block.slice(0, -3)}\n\n`, ''],
    ['in one that ends with its quote', `${indented('> ').slice(0, -6)}\n\nThe sleeve fits.\n`, '> '],
    ['in one of tildes', block.replace('```m', '~~~~ m').replace('\n```', '\n~~~~'), ''],
  ])('%s', (_, text, prefix) => {
    for (const lineBreak of ['\n', '\r\n']) {
      const typed = `\uFEFF${text.replaceAll('\n', lineBreak)}`;
      const note = worked(typed);
      const [comment] = examineNote(note)!.comments;
      expect(comment, note).toMatchObject({ name: 'axle-sleeve', trouble: null, prefix });
      expect(comment!.fenceStart).not.toBeNull();
      expect(rulesIn(note), note).toEqual([]);
      expect(note.replaceAll(lineBreak, '')).not.toMatch(/[\r\n]/);
      expect(worked(note)).toBe(note);
      const lines = note.slice(comment!.opening.start, comment!.end!.end).split(lineBreak).slice(1);
      for (const line of lines) expect(line === '' ? '' : line).toMatch(new RegExp(`^${prefix.trimEnd()}`));
      const outside = note.slice(0, comment!.opening.start) + note.slice(comment!.end!.end);
      expect(outside.replace(/\s|>|~|`/g, '')).toBe(typed.replace(/\s|>|~|`/g, ''));
    }
  });

  it('of two blocks with one name, each has its own', () => {
    const two = worked(`${block}\n\n${block}\n`);
    expect(examineNote(two)!.comments.map(({ name }) => name)).toEqual(['axle-sleeve', null]);
    expect(worked(two)).toBe(two);
    expect(rulesIn(two)).toEqual(['duplicate-name']);
  });
});
