import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import { formatBlock } from '../../server/src/language/format-block.ts';
import { parseBlock } from '../../server/src/language/parser.ts';
import { damaged, wordSalad } from '../properties/generators/damage.ts';
import { type Draw, pick } from '../properties/generators/draw.ts';
import { drawWorkedScrew } from '../properties/generators/worked-screw.ts';
import { drawWorkedVernier } from '../properties/generators/worked-vernier.ts';
import { drawSeed } from '../support/seed.ts';
import { DRESSES, NOTES_TO_MEND, noteText } from '../support/typed-notes.ts';

drawSeed('format-block.test.ts');

function tidied(text: string): string {
  const note = examineNote(text);
  if (note === null) return text;
  const edits = note.measurements
    .slice(0, note.fences)
    .flatMap(measurement => formatBlock(parseBlock(measurement.fence), measurement));
  return withEdits(text, edits);
}

/** A line of a block, tidied; the block has a vernier. */
function line(typed: string): string {
  const made = tidied(
    `\`\`\`measurement\nmain scale: 1 MSD = 1 mm\nvernier scale: 10 VSD = 9 MSD\n${typed}\n\`\`\`\n`,
  );
  return made.split('\n').slice(3, -2).join('\n');
}

describe('a tidied line', () => {
  it.each([
    ['one space around signs', 'LC=S - V  =   0.1 mm', 'LC = S - V = 0.1 mm'],
    ['the colon close to the name', 'MSR :2.4 cm', 'MSR: 2.4 cm'],
    [
      'signs of reckoning',
      'reading = 2.4 cm+7*0.01 cm = 2.47 cm',
      'reading = 2.4 cm + 7 × 0.01 cm = 2.47 cm',
    ],
    ['a spaced x', 'reading = 24 mm + 7 x 0.1 mm', 'reading = 24 mm + 7 × 0.1 mm'],
    ['brackets', 'g = 4*(2.5 mm)*3', 'g = 4 × (2.5 mm) × 3'],
    ['powers of ten', 'q: 2.5*10^-3 m', 'q: 2.5 × 10^-3 m'],
    ['an error', 'm: 1.06 g±0.01 g', 'm: 1.06 g ± 0.01 g'],
    ['an observable is recorded', 'main scale reading = 24 mm', 'main scale reading: 24 mm'],
    ['the closed position too', 'closed = zeros coincide', 'closed: zeros coincide'],
    ['a record', 'instrument = vernier calipers', 'instrument: vernier calipers'],
    ['a chain is a claim', 'least count : S - V = 0.1 mm', 'least count = S - V = 0.1 mm'],
    ['a quantity of one’s own, too', 'h: 2 mm + 3 mm = 5 mm', 'h = 2 mm + 3 mm = 5 mm'],
    ['what is asked', 'least count: ?', 'least count = ?'],
    ['two statements in a line', 'MSR=24 mm,VC=7', 'MSR: 24 mm,VC: 7'],
    ['a line that goes on', 'LC = S - V\n=0.1 mm', 'LC = S - V\n= 0.1 mm'],
    ['blanks at the end', 'MSR: 24 mm \t ', 'MSR: 24 mm'],
    ['blanks behind a comment', 'MSR: 24 mm    # seen  ', 'MSR: 24 mm    # seen'],
    ['an approximate sign', 'LC≈0.1 mm', 'LC ≈ 0.1 mm'],
  ])('has %s', (_, typed, wanted) => {
    expect(line(typed)).toBe(wanted);
    expect(line(wanted)).toBe(wanted);
  });

  it.each([
    ['a sign before a number', 'zero error = -0.06 mm'],
    ['a name with a hyphen', 'gap = a-b'],
    ['a unit with its power', 'g: 9.81 m s-2'],
    ['an exponent', 'q: 10^-3 m'],
    ['a slash', 'LC = pitch/50 = 1 mm / 50'],
    ['a mixed number', 'w: 2 3/8 in'],
    ['digits in groups', 'l: 1 195 635 mm'],
    ['a range', 'measuring range: 0 mm to 150 mm'],
    ['a name between', 'closed: vernier zero right, division 3'],
    ['the words of a reason', 'waive: wrong-value, printed  2*3=6 so'],
    ['a choice', 'option A: 2*3 mm'],
    ['the key', 'answer = B'],
    ['a comment', '#x=1  *2'],
    ['formulas in LaTeX', '$LC=S-V$ = 0.1 mm'],
    ['a sentence', 'the zero stands  right of 2*3'],
    ['a claim that nothing determines', 'pitch = 1 mm'],
    ['lone signs', 'q == 3 mm'],
  ])('keeps %s as typed', (_, typed) => {
    expect(line(typed)).toBe(typed);
  });

  it('keeps an observable that is worked out from a given reading', () => {
    const typed = 'observed reading: 7.4 mm\ncoinciding division = 4';
    expect(line(typed)).toBe(typed);
  });
});

describe('a tidied table', () => {
  it('has its bars below each other', () => {
    const typed = ['|label|MSR|n', '|---|:--:|--:|', '| upper edge|24 mm | 7 | # seen  ', '  | ±2|1 mm|10|'];
    expect(line(typed.join('\n')).split('\n')).toEqual([
      '| label      |  MSR  |  n |',
      '|------------|:-----:|---:|',
      '| upper edge | 24 mm |  7 | # seen',
      '  | ±2         | 1 mm  | 10 |',
    ]);
  });

  it('keeps rows of another length, empty cells and what is no table', () => {
    const typed = ['| MSR | n |', '| 1 mm', '| 2 mm | 3 | 4 | 5', '||', '|', 'MSR: 3 mm', '| n |', '| 10 |'];
    const once = line(typed.join('\n'));
    expect(once.split('\n')).toEqual([
      '| MSR  | n |',
      '| 1 mm |',
      '| 2 mm | 3 | 4 | 5 |',
      '|      |',
      '|',
      'MSR: 3 mm',
      '| n  |',
      '| 10 |',
    ]);
    expect(line(once)).toBe(once);
  });

  it('does not grow without bound', () => {
    const wide = ['| label | MSR |', `| ${'w'.repeat(15_000)} | 1 mm |`, ...Array(900).fill('| a | 1 mm |')];
    expect(line(wide.join('\n')).length).toBeLessThan(15_000 + 900 * 100);
    const many = ['| label |', `|${'a|'.repeat(9000)}`];
    expect(line(many.join('\n'))).toBe(many.join('\n'));
  });
});

/** All that is told of a note, however it is spaced, and of what `*` and `x` mean. */
function told(text: string): {
  readonly faults: readonly string[];
  readonly values: string;
  readonly signs: string;
} {
  const { findings, blocks } = checkNote(text);
  const values = blocks.flatMap(({ quantities }) => quantities.map(({ span, ...rest }) => rest));
  return {
    faults: findings.map(({ rule, message }) => `${rule} ${bare(message)}`),
    values: JSON.stringify(values),
    signs: bare(text).replace(/[:=|-]/g, ''),
  };
}

function bare(text: string): string {
  return text.replace(/\s/g, '').replace(/[*xX✕✖]/g, '×');
}

/** Tidying twice is tidying once, the same is found and worked out, and nothing that was typed is lost. */
function expectTidied(text: string): void {
  const once = tidied(text);
  expect(tidied(once)).toBe(once);
  const [before, after] = [told(text), told(once)];
  // Signs are mended, so that nothing is left to say about them.
  const standing = before.faults.filter(fault => after.faults.includes(fault) || !isAboutSign(fault));
  expect(after.faults, once).toEqual(standing);
  expect(after.values).toBe(before.values);
  expect(after.signs).toBe(before.signs);
}

function isAboutSign(fault: string): boolean {
  return /^not-plain.*(?:soacolonstands|soanequalssignstands)/.test(fault);
}

const GOOD: readonly ((draw: Draw) => readonly string[])[] = [
  draw => drawWorkedVernier(draw, 'bench').lines,
  draw => drawWorkedScrew(draw, 'bench').lines,
];

describe('tidying', () => {
  it.each(Object.entries(DRESSES))('changes the looks and nothing else, in every note, %s', (_, dress) => {
    for (const path of NOTES_TO_MEND.filter((_, index) => index % 3 === 0))
      expectTidied(dress(noteText(path)));
  });

  it('does so in damaged blocks', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const good = `\`\`\`measurement\n${pick(draw, GOOD)(draw).join('\n')}\n\`\`\`\n`;
        expectTidied(damaged(draw, good));
      }),
      { numRuns: 60 },
    );
  });

  it('does so in words of no order', () => {
    fc.assert(
      fc.property(fc.gen(), draw => expectTidied(`~~~~~~~~~~measurement\n${wordSalad(draw)}\n~~~~~~~~~~\n`)),
      { numRuns: 60 },
    );
  });
});
