import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeBlock } from '../../server/src/actions/make-block.ts';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkedNote, checkNote } from '../../server/src/checks/check.ts';
import { examineNote, examineStructure } from '../../server/src/checks/examine.ts';
import { wordSalad } from '../properties/generators/damage.ts';
import { drawSeed } from '../support/seed.ts';

drawSeed('make-block.test.ts');

/** The note once the lines from `from` to the end of `to` are made a block; null where that is not on offer. */
function made(text: string, from: string, to: string = text.trimEnd()): string | null {
  const note = examineNote(text) ?? examineStructure(text, { fences: [], codeSpans: [] });
  const start = text.indexOf(from);
  const span = { start, end: text.indexOf(to, text.trimEnd() === to ? 0 : start) + to.length };
  const [action] = makeBlock({ text, note, checked: checkedNote(note), span });
  return action === undefined ? null : withEdits(text, action.edits());
}

/** What is found in it that counts: where, and by which rule. */
function found(text: string): readonly string[] {
  return checkNote(text).findings.map(({ rule, span }) => `${rule} ${text.slice(span.start, span.end)}`);
}

// Solutions as an apprentice types them at the bench, in a hurry; the values are worked out by hand.
const PIECES: Readonly<
  Record<string, { readonly note: string; readonly from?: string; readonly to?: string }>
> = {
  'a seat post with calipers': {
    note: `# Seat post

Main scale: 1 cm = 10 MSD
Vernier scale: 10 VSD = 9 MSD
LC = S - V = 0.01 cm
The zero of the vernier stands just behind 1.2 cm.
Main scale reading = 1.2 cm
7th division coincides
Reading = 1.2 + 7 × 0.01 = 1.27 cm
`,
    from: 'Main scale',
  },
  'an axle with a screw gauge': {
    note: `## Q3. Axle

Given: pitch = 0.5 mm, 50 divisions on the circular scale.
LC = 0.5/50 = 0.01 mm
LSR = 3 mm
CSR = 24
Hence reading = 3 + 24 x 0.01 = 3.24 mm.
So the diameter of the axle is 3.24 mm.
`,
    from: 'Given',
  },
  'the items of a list in a quote': {
    note: `Sleeve:
> - 1 MSD = 1 mm
> - 10 VSD = 9 MSD
> - LC = 1 - 0.9 = 0.1 mm
> - zero error = +0.3 mm
> - MSR = 23 mm, VC = 4
> - reading = 23 + 0.4 = 23.4 mm
> - corrected reading = 23.4 - 0.3 = 23.1 mm
`,
    from: '> - 1 MSD',
  },
  'one item of a list': {
    note: `1. Screw gauge:

   pitch = 1 mm
   N = 100
   L.C. = pitch/N = 0.01 mm
   Zero error = -0.04 mm
   PSR = 5 mm, HSR = 62
   Total reading = 5 + 62*0.01 = 5.62 mm
   Correct reading = 5.62 + 0.04 = 5.66 mm
2. Next one.
`,
    from: '1. Screw',
    to: '5.66 mm\n',
  },
  'formulas in LaTeX, with backticks': {
    note: `Solution

$LC = \\frac{1\\,mm}{20} = 0.05\\,mm$
MSR = $32$ mm
n = 9
Reading $= 32 + 9 \\times 0.05 = 32.45$ mm  # as \`\`\`printed\`\`\`
`,
    from: 'Solution',
  },
  'two facts in a line, and a table': {
    note: `Take the readings.

main scale 1 cm = 20 MSD; 25 VSD = 24 MSD
| MSR | VC | reading |
| 2.45 cm | 17 | 2.484 cm |
| 2.45 cm | 19 | 2.488 cm |
Mean = 2.486 cm
Therefore the sleeve measures about 2.5 cm across!
`,
    from: 'main scale',
  },
  'a fence without a name': {
    note: `The ball:

\`\`\`text
m = 1.06 g
D = 6.38 mm
V = pi D^3/6 = 0.136 cm^3
density = m/V = 7.80 g/cm^3
\`\`\`
`,
    from: '```text',
  },
  'lines set in, below an underlined heading': {
    note: `Wheel nut
---------

    MSR: 3,2 cm
    VSR = 6
    least count 0.01 cm
    Observed reading = 3.26 cm
`,
    from: '    MSR',
  },
  'a question with its text': {
    note: `Q: the vernier of a bevel protractor has 12 divisions that cover 23 degrees of the main scale.
main scale: 1 MSD = 1°
12 VSD = 23 MSD
LC = 5'
MSR = 41°, vernier coincidence 7
reading = 41° + 7*5' = 41°35'
`,
    from: 'Q:',
  },
  'a pendulum with a list of times': {
    note: `T = 2.01 s, 1.99 s, 2.03 s
mean of T = 2.01 s
l = 100.2 cm ± 0.1 cm
g = 4 pi^2 l / (mean of T)^2 = 979 cm/s^2

good enough for a church clock!
`,
    from: 'T =',
  },
};

describe('a block of selected lines', () => {
  it.each(Object.entries(PIECES))('reads: %s', (_, { note, from, to }) => {
    const block = made(note, from!, to)!;
    expect(block).toMatchSnapshot();
    expect(found(block)).toMatchSnapshot();
    // Every number that was typed is still there.
    const numbers = (text: string): readonly string[] => [...text.matchAll(/\d+/g)].map(([number]) => number);
    const left = numbers(block);
    for (const number of numbers(note)) expect(left).toContain(number);
  });

  it('keeps the line ends of the note, and a list that it stands in', () => {
    const note = '1. Nut:\r\n\r\n   MSR = 1.2 cm\r\n   VC = 6\r\n   LC = 0.01 cm\r\n2. Bolt\r\n';
    expect(made(note, '   MSR', '0.01 cm')).toBe(
      '1. Nut:\r\n\r\n   ```measurement block-1\r\n   MSR = 1.2 cm\r\n   VC = 6\r\n   LC: 0.01 cm\r\n   ```\r\n\r\n2. Bolt\r\n',
    );
  });

  it('gets a name of its own', () => {
    const block = '```measurement Wheel-Nut\nMSR: 1 mm\n```\n';
    expect(made(`${block}# **Wheel** nut!\n\nLC = 0.1 mm\n`, 'LC')).toContain('measurement wheel-nut-2\n');
    expect(made('LC = 0.1 mm\n', 'LC')).toContain('measurement block-1\n');
    const long = 'A heading of very many words that nobody would use as the name of anything';
    expect(made(`# ${long}\n\nLC = 0.1 mm\n`, 'LC')).toContain(
      'measurement a-heading-of-very-many-words-that-nobody\n',
    );
    expect(made('# ???\n\nLC = 0.1 mm\n', 'LC')).toContain('measurement block-1\n');
  });

  it('holds whole lines, however they were selected', () => {
    const note = 'Nut\n\nMSR = 1.2 cm\nLC = 0.01 cm\n\nThe rest.\n';
    const whole = made(note, 'MSR', 'LC = 0.01 cm');
    expect(made(note, '1.2', 'LC')).toBe(whole);
    expect(made(note, '\nMSR', 'cm\n\n')).toBe(whole);
    expect(made(note, 'MSR', '0.01 cm\n')).toBe(whole);
  });

  it('is not on offer where nothing is stated, in a block, or for a book', () => {
    expect(made('The calipers hang beside the lathe.\n', 'The')).toBeNull();
    expect(made('\n\n', '\n')).toBeNull();
    expect(made('```measurement\nLC: 1 mm\n```\n', 'LC', 'mm')).toBeNull();
    expect(made('LC = 1 mm\n'.repeat(1000), 'LC', 'LC = 1 mm\n'.repeat(1000))).toBeNull();
  });

  it('leaves code of another kind alone', () => {
    const note = '```js\nlength = 1;\n```\n';
    expect(made(note, 'length', '1;')).toBe(note);
  });

  it('leaves what is wrong as it was worked out', () => {
    const note = 'pitch: 0.5 mm\ncircular scale: 50 divisions\nLC = 0.5/50 = 0.02 mm\n';
    const block = made(note, 'pitch')!;
    expect(block).toContain(note);
    expect(found(block)).toEqual(['wrong-value 0.02 mm']);
  });

  it('mends nothing else in the note', () => {
    const other = '```measurement other\nLSR: 2\npitch = 1 mm\n```\n';
    expect(made(`${other}\nMSR = 1,2 cm\n`, 'MSR')).toBe(
      `${other}\n\`\`\`measurement block-1\nMSR = 1.2 cm\n\`\`\`\n`,
    );
  });

  it('leaves out nothing of words in no order', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const words = wordSalad(draw).replace(/[`~]/g, '');
        const note = `x\n\n${words}\n\ny\n`;
        const block = made(note, words, words) ?? note;
        // A number may be written with a point, or twice where a fact becomes a line.
        const left = block.replace(/[^\p{L}\d]/gu, '').toLowerCase();
        for (const [typed] of words.matchAll(/\d{2,}/g)) expect(left, block).toContain(typed);
        expect(block).toMatch(/^x\n[\s\S]*\ny\n$/);
      }),
      { numRuns: 80 },
    );
  });
});
