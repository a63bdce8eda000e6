import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { actionsAt } from '../../server/src/actions/all.ts';
import { fixAllEdits } from '../../server/src/actions/fix-all.ts';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkedNote, checkNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import type { CheckedNote } from '../../server/src/checks/finding.ts';
import { DEFAULT_SETTINGS } from '../../server/src/checks/settings.ts';
import { jsonReporter } from '../../server/src/cli/reporters/json.ts';
import { blockWorkings, workingOf } from '../../server/src/workings/working.ts';

const STUDENT = { ...DEFAULT_SETTINGS, student: true };

const NOTES = ['examples/careless', 'tests/rules', 'tests/slips'].flatMap(folder => {
  const url = new URL(`../../${folder}/`, import.meta.url);
  return readdirSync(url)
    .filter(name => name.endsWith('.md'))
    .map(name => [`${folder}/${name}`, readFileSync(new URL(name, url), 'utf8')] as const);
});

const NUMBER = /(?:\d+ (?=\d+\/))?\d+(?:\.\d+)?(?:\/\d+)?(?:e[+-]?\d+)?/g;

/** The numbers of a text: `2.50 cm`, `2.5`, `5/2`, `2 1/2` and `0.25 × 10^1` have the same. Rows are counted, not measured. */
function numbersIn(text: string): readonly string[] {
  const plain = text.replace(/\brow \d+/g, '').replace(/ × 10\^(?=-?\d)/g, 'e');
  return (plain.match(NUMBER) ?? []).map(number => {
    const [, whole = '0', above, below = '1'] = /^(?:(\d+) )?([^/]+)(?:\/(.+))?$/.exec(number) ?? [];
    return (Number(whole) + Number(above) / Number(below)).toPrecision(6);
  });
}

/** Everything that a report of a note says, but for places and for what stands in the note. */
async function saidIn(text: string, checked: CheckedNote): Promise<readonly string[]> {
  const report = JSON.parse(
    `{"notes":[${await jsonReporter({ waived: true, quiet: false }).note('note.md', text, checked)}]}`,
  ) as object;
  const said: string[] = [];
  JSON.stringify(report, (key, value) => {
    if (typeof value === 'string' && key !== 'stated') said.push(value);
    return value;
  });
  return said;
}

/** What the records determine and nobody wrote: the right values of all findings, and whatever is computed. */
function secretsOf(text: string, { findings, blocks }: CheckedNote): ReadonlySet<string> {
  // Whoever writes nil or none has written a nought.
  const written = new Set(numbersIn(text.replace(/\b(?:nil|none)\b/gi, '0')));
  const values = [
    ...findings.flatMap(({ computed }) => computed ?? []),
    ...blocks.flatMap(({ quantities }) =>
      quantities.filter(({ source }) => source === 'computed').flatMap(({ shown, value }) => [shown, value]),
    ),
  ];
  return new Set(values.flatMap(numbersIn).filter(number => !written.has(number)));
}

describe('student mode', () => {
  it.each(NOTES)('gives no value away: %s', async (_, text) => {
    const told = checkNote(text);
    const secrets = secretsOf(text, told);
    const checked = checkNote(text, STUDENT);
    const leaks = (await saidIn(text, checked)).filter(said =>
      numbersIn(said).some(number => secrets.has(number)),
    );
    expect(leaks).toEqual([]);
    // The same is found, at the same places.
    const places = ({ findings }: CheckedNote) =>
      findings.map(({ rule, span, severity, waived }) => [rule, span, severity, waived]);
    expect(places(checked)).toEqual(places(told));
    for (const { computed } of checked.findings) expect(computed).toBeNull();
  });

  it('has words for every finding that tells a value otherwise', () => {
    const reworded = new Set<string>();
    const slips = new Set<string>();
    for (const [, text] of NOTES) {
      const told = checkNote(text).findings;
      for (const [at, finding] of checkNote(text, STUDENT).findings.entries()) {
        if (finding.message === told[at]!.message) expect(told[at]!.computed, finding.message).toBeNull();
        else {
          reworded.add(finding.rule);
          if (finding.slip !== null) slips.add(finding.message.replace(/.*: look again at /, ''));
          expect(finding.fixes).toEqual([]);
          expect(finding.message).not.toMatch(/undefined|null|[.]$/);
        }
      }
    }
    expect(reworded.size).toBeGreaterThan(8);
    expect(slips.size).toBeGreaterThan(20);
  });

  it('says of a wrong error that it is the error', () => {
    // 0.1 + 0.1 = 0.2
    const text = `\`\`\`measurement hub
x: 3.0 cm ± 0.1 cm
y: 2.0 cm ± 0.1 cm
s = x + y = (5.0 ± 0.3) cm
\`\`\`
`;
    expect(checkNote(text, STUDENT).findings.map(({ message }) => message)).toEqual([
      'the absolute error of s is stated as 0.3 cm, which does not follow from what is recorded: look again at what each value is uncertain by, and how these go together',
    ]);
  });

  it('lists no value but those that are recorded as they are', () => {
    const text = `\`\`\`measurement hub
main scale: 1 mm = 1 MSD
vernier scale: 10 VSD = 9 MSD
main scale reading: 24 MSD
coinciding division: 7
zero error: +0.2 mm
zero correction = -0.2 mm
m: 12.5 g
k: 2 m
D: corrected reading
\`\`\`
`;
    expect(checkNote(text, STUDENT).blocks[0]!.quantities.map(({ shown }) => shown)).toEqual([
      '+0.2 mm',
      '7',
      '12.5 g',
      '2 m',
    ]);
  });

  it('works nothing out, and offers no action that writes a value', () => {
    for (const [, text] of NOTES.slice(0, 12)) {
      const note = examineNote(text, STUDENT)!;
      const checked = checkedNote(note);
      const secrets = secretsOf(text, checkNote(text));
      for (const { index, measurement } of note.facts.blocks()) {
        expect(blockWorkings(note, index)).toEqual([]);
        for (const { subject, span } of measurement.claims) {
          expect(workingOf(note, index, subject)).toBeNull();
          for (const { title, edits } of actionsAt({ text, note, checked, span })) {
            const written = [title, ...edits().map(({ newText }) => newText)].join(' ');
            expect(
              numbersIn(written).filter(number => secrets.has(number)),
              written,
            ).toEqual([]);
          }
        }
      }
      const mended = withEdits(text, fixAllEdits(text, STUDENT));
      expect(numbersIn(mended).filter(number => secrets.has(number))).toEqual([]);
    }
  });

  it('keeps the fixes of form', () => {
    const text = '```measurement\nmain scale: 1 mm = 1 MSD\nleast cuont: 0.1 mm\n```\n';
    const { findings } = checkNote(text, STUDENT);
    expect(findings).toEqual(checkNote(text).findings);
    expect(findings[0]!.fixes).toHaveLength(1);
  });
});
