import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { lineIndex, placeAt } from '../../server/src/checks/line-index.ts';
import { SLIPS } from '../../server/src/engine/slips/all.ts';
import { RULE_NAMES } from '../../server/src/language/rule-names.ts';
import planted from './careless-expected.json' with { type: 'json' };

const root = new URL('../../', import.meta.url);
const notesIn = (folder: string): string[] =>
  readdirSync(new URL(folder, root)).filter(name => name.endsWith('.md'));
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');

describe('the solution set', () => {
  it.each(notesIn('examples/'))('%s has nothing to correct', name => {
    expect(checkNote(read(`examples/${name}`)).findings.filter(finding => finding.waived === null)).toEqual(
      [],
    );
  });
});

// Planted by hand, with the slip that was made; the numbers are invented.
describe('the careless set', () => {
  it.each(notesIn('examples/careless/'))('%s is flagged where a slip was planted, and nowhere else', name => {
    const path = `examples/careless/${name}`;
    const text = read(path);
    const index = lineIndex(text);
    const found = checkNote(text)
      .findings.filter(finding => finding.waived === null)
      .map(finding => ({
        line: placeAt(index, finding.span.start).line,
        rule: finding.rule,
        severity: finding.severity,
        slip: finding.slip,
      }));
    const expected = planted.filter(({ file }) => file === path);
    for (const [at, finding] of found.entries()) {
      const match = expected.find(
        ({ line, rule, slip, ...rest }) =>
          line === finding.line &&
          rule === finding.rule &&
          ('alsoSlips' in rest && rest.alsoSlips?.includes(finding.slip ?? '')
            ? true
            : slip === finding.slip),
      );
      if (match !== undefined && match.slip !== finding.slip) found[at] = { ...finding, slip: match.slip };
    }
    expect(found).toEqual(expected.map(({ line, rule, severity, slip }) => ({ line, rule, severity, slip })));
  });

  it('shows every slip and every rule', () => {
    expect(new Set(planted.flatMap(({ slip }) => slip ?? []))).toEqual(
      new Set(SLIPS.map(({ name }) => name)),
    );
    expect(new Set(planted.map(({ rule }) => rule)).size).toBe(RULE_NAMES.length);
  });
});
