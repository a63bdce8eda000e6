import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { RULES } from '../../server/src/checks/all.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { RULE_NAMES } from '../../server/src/language/rule-names.ts';
import { expectMarkedNote } from '../support/marked-note.ts';

// What each rule says is settled by the language page; the numbers are invented and worked out by hand.
// A rule with much to say has more notes than one: `wrong-value.md`, `wrong-value.more.md`.
const NOTES = readdirSync(new URL('.', import.meta.url)).filter(file => file.endsWith('.md'));
const textOf = (file: string): string => readFileSync(new URL(file, import.meta.url), 'utf8');
const rulesIn = (text: string): readonly string[] => checkNote(text).findings.map(({ rule }) => rule);

describe('the note of every rule', () => {
  it.each(RULE_NAMES)('%s is there', name => {
    expect(NOTES).toContain(`${name}.md`);
  });

  it.each(NOTES)('%s', file => {
    const note = textOf(file);
    expectMarkedNote(note, checkNote);
    expect(rulesIn(note)).toContain(file.split('.')[0]);
  });
});

describe('the example of every rule', () => {
  it.each(RULES.map(rule => [rule.name, rule] as const))('%s', (name, { example, fixedExample }) => {
    expectMarkedNote(example, checkNote);
    expect(rulesIn(example)).toContain(name);
    if (fixedExample !== undefined) expect(checkNote(fixedExample).findings).toEqual([]);
  });
});
