import { describe, expect, it } from 'vitest';
import { RULES } from '../../server/src/checks/all.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { SLIPS } from '../../server/src/engine/slips/all.ts';
import { RULE_NAMES } from '../../server/src/language/rule-names.ts';
import { generatedPages } from '../../server/src/reference/generated-pages.ts';
import { expectMarkedNote } from '../support/marked-note.ts';
import { projectFiles, projectText } from '../support/project-files.ts';

const files = new Set(projectFiles());

describe('every rule', () => {
  it('is declared, in the order of the names', () => {
    expect(RULES.map(rule => rule.name)).toEqual([...RULE_NAMES]);
  });

  it.each(RULES.map(rule => rule.name))('%s has a note-test and a page', name => {
    expect(files).toContain(`tests/rules/${name}.md`);
    expect(files).toContain(`server/reference/rules/${name}.md`);
  });

  it.each(RULES.map(rule => [rule.name, rule] as const))('%s has an example that shows it', (name, rule) => {
    expectMarkedNote(rule.example, checkNote);
    expect(checkNote(rule.example).findings.map(finding => finding.rule)).toContain(name);
    if (rule.fixedExample !== undefined) expect(checkNote(rule.fixedExample).findings).toEqual([]);
  });
});

describe('every slip', () => {
  it.each(SLIPS.map(slip => slip.name))('%s has a note-test and a page', name => {
    expect(files).toContain(`tests/slips/${name}.md`);
    expect(files).toContain(`server/reference/slips/${name}.md`);
  });

  it.each(SLIPS.map(slip => [slip.name, slip] as const))('%s has an example that shows it', (name, slip) => {
    expectMarkedNote(slip.example, checkNote);
    expect(checkNote(slip.example).findings.map(finding => finding.slip)).toContain(name);
  });
});

describe('the pages', () => {
  const pages = generatedPages(projectText('server/src/reference/language.md'));

  it('are those that the declarations give now: `npm run generate`', () => {
    const stored = [...files].filter(path => path.startsWith('server/reference/'));
    expect(stored).toEqual([...pages.keys()].map(path => `server/reference/${path}`).sort());
    const stale = [...pages].filter(([path, text]) => projectText(`server/reference/${path}`) !== text);
    expect(stale.map(([path]) => path)).toEqual([]);
  });

  it('link only to pages that are there', () => {
    for (const [path, text] of pages) {
      for (const [, target = ''] of text.matchAll(/\]\(([^)#:]+)\)/g)) {
        const page = new URL(target, `file:///${path}`).pathname.slice(1);
        expect([...pages.keys()], `${path} links to ${target}`).toContain(page);
      }
    }
  });

  it('say nothing about the language that is wrong: every block of the language page agrees', () => {
    expect(checkNote(projectText('server/src/reference/language.md')).findings).toEqual([]);
  });
});
