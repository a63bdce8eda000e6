import { describe, expect, it } from 'vitest';
import { fixAllEdits } from '../../server/src/actions/fix-all.ts';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';

const note = (...lines: readonly string[]): string => ['```measurement', ...lines, '```', ''].join('\n');

/** What becomes of the last line of a block when all sure fixes are made; the check has nothing more to say to it. */
function mendedLine(...lines: readonly string[]): string {
  const text = note(...lines);
  const mended = withEdits(text, fixAllEdits(text));
  expect(checkNote(mended).findings.map(({ message }) => message)).toEqual([]);
  return mended.split('\n').at(-3)!;
}

// x y = 3.0 × 2.0 = 6.0 cm², its error 3.0 × 0.1 + 2.0 × 0.1 = 0.5 cm²; 1 cm² is 100 mm².
describe('a value with its error behind it', () => {
  const records = ['x: 3.0 cm ± 0.1 cm', 'y: 2.0 cm ± 0.1 cm'];
  it.each([
    ['(6.0000 ± 0.5) cm^2', '(6.00 ± 0.5) cm^2'],
    ['(7.0 ± 0.5) cm^2', '(6.0 ± 0.5) cm^2'],
    ['(6.0 ± 0.9) cm^2', '(6.0 ± 0.5) cm^2'],
    ['(7.0 ± 0.9) cm^2', '(6.0 ± 0.5) cm^2'],
    ['(6.000 ± 0.5) × 10^2 mm^2', '(6.00 ± 0.5) × 10^2 mm^2'],
    ['(6.0 ± 0.9) × 10^2 mm^2', '(6.0 ± 0.5) × 10^2 mm^2'],
    ['(0.70 ± 0.05) × 10^3 mm^2', '(0.60 ± 0.05) × 10^3 mm^2'],
    ['(7.0 ± 0.5) × 10² mm²', '(6.0 ± 0.5) × 10² mm²'],
    ['$(7.0 \\pm 0.5)\\ \\text{cm}^2$', '$(6.0 \\pm 0.5)\\ \\text{cm}^2$'],
    ['$(7.00 \\pm 0.50) \\times 10^{2}$ mm^2', '$(6.00 \\pm 0.50) \\times 10^{2}$ mm^2'],
    ['(7.0 cm^2 ± 0.5 cm^2)', '(6.0 cm^2 ± 0.5 cm^2)'],
    ['7.0 ± 0.5 cm^2', '6.0 ± 0.5 cm^2'],
    ['7.0 cm^2 ± 0.5 cm^2', '6.0 cm^2 ± 0.5 cm^2'],
    ['7.0 × 10^2 mm^2 ± 0.5 cm^2', '6.0 × 10^2 mm^2 ± 0.5 cm^2'],
  ])('%s becomes %s', (wrong, right) => {
    expect(mendedLine(...records, `p = x y = ${wrong}`)).toBe(`p = x y = ${right}`);
  });
});

describe('a value in dress that begins or ends in it', () => {
  it.each([
    ['$9.5$ cm^2', '$9.0$ cm^2'],
    ['9.5 $\\text{cm}^2$', '9.0 $\\text{cm}^2$'],
    ['$9.54 \\times 10^{-4}$ m^2', '$9.00 \\times 10^{-4}$ m^2'],
    ['$9.5\\ \\text{cm}^2$', '$9.0\\ \\text{cm}^2$'],
    ['**9.5** cm^2', '**9.0** cm^2'],
    ['**9.5 cm^2**', '**9.0 cm^2**'],
    // A fraction has no places: the nine whole square centimetres are written over it.
    ['$\\frac{19}{2}$ cm^2', '$9 cm^2$'],
  ])('%s becomes %s', (wrong, right) => {
    expect(mendedLine('x: 3.0 cm', `A = x^2 = ${wrong}`)).toBe(`A = x^2 = ${right}`);
  });

  it('keeps the sign that opens before the formula', () => {
    expect(mendedLine('x: 3.0 cm', 'A = $x^2 = 9.5$ cm^2')).toBe('A = $x^2 = 9.0$ cm^2');
  });
});

// 4 × 20.0 N / (π × (0.51 mm)²) = 80.0 / (3.14159 × 0.2601) N/mm² = 80.0 / 0.817128 = 97.904 N/mm² = 9.7904 × 10⁷ N/m²;
// the data carry 0.1/20 + 2 × 0.01/0.51 = 4.4 %, that is 0.43 × 10⁷, so that 9.79 × 10⁷ is as far as they go.
describe('a value with a power of ten', () => {
  const records = ['F: 20.0 N ± 0.1 N', 'D: 0.51 mm ± 0.01 mm'];
  it.each([
    ['9.9 × 10^7 N/m^2', '9.8 × 10^7 N/m^2'],
    ['9.79038 × 10^7 N/m^2', '9.79 × 10^7 N/m^2'],
    ['$9.9 \\times 10^{7}$ N/m^2', '$9.8 \\times 10^{7}$ N/m^2'],
    ['9.9 \\times 10^{7}\\ \\text{N/m}^2', '9.8 \\times 10^{7}\\ \\text{N/m}^2'],
    ['9.9e7 N/m^2', '9.8 × 10^7 N/m^2'],
    ['97903848 N/m^2', '9.79 × 10^7 N/m^2'],
    ['99000000 N/m^2', '9.79 × 10^7 N/m^2'],
    ['99.0 N/mm^2', '97.9 N/mm^2'],
  ])('%s becomes %s', (wrong, right) => {
    const formula = 'p = 4 × F/(pi D^2)';
    expect(mendedLine(...records, `${formula} = ${wrong}`)).toBe(`${formula} = ${right}`);
  });

  it('keeps as many figures as are stated of a very small one', () => {
    expect(mendedLine('q: 6.4e-19 C', 'w = q = 6.5 × 10^-19 C')).toBe('w = q = 6.4 × 10^-19 C');
  });
});

describe('an exact value', () => {
  it.each<[string, readonly string[], string]>([
    ['shows the places that it needs', ['d: 0.31 mm', 'r = d/2 = 0.62 mm'], 'r = d/2 = 0.155 mm'],
    [
      'as an error is not made smaller',
      ['D: 12.35 mm ± 0.025 mm', 'absolute error of D = 0.05 mm'],
      'absolute error of D = 0.025 mm',
    ],
    [
      // 75.85 + 27 × 0.001 = 75.877
      'of a travelling microscope shows its least count',
      [
        'instrument: travelling microscope',
        'main scale: 1 cm = 20 MSD',
        'vernier scale: 50 VSD = 49 MSD',
        'MSR: 75.85 cm',
        'n: 27',
        'H = MSR + n × LC = 75.85 + 27 × 0.001 = 76.12 cm',
      ],
      'H = MSR + n × LC = 75.85 + 27 × 0.001 = 75.877 cm',
    ],
    [
      'stays in the degrees and minutes of its line',
      ['a: 40° 20′', 'b: 6° 15′', 'c = a + b = 40° 20′ + 6° 15′ = 46.35°'],
      'c = a + b = 40° 20′ + 6° 15′ = 46° 35′',
    ],
    [
      // S - V = 1/16 - 7/128 = 1/128
      'is answered as the fraction that it is',
      ['main scale: 1 in = 16 MSD', 'vernier scale: 8 VSD = 7 MSD', 'LC = 1/8 in'],
      'LC = 1/128 in',
    ],
    [
      // 2 3/16 + 5/128 = 2 24/128 + 5/128
      'is answered as the mixed number that it is',
      [
        'main scale: 1 in = 16 MSD',
        'vernier scale: 8 VSD = 7 MSD',
        'main scale reading: 2 3/16 in',
        'coinciding division: 5',
        'observed reading = 2 28/128 in',
      ],
      'observed reading = 2 29/128 in',
    ],
  ])('%s', (_, lines, right) => {
    expect(mendedLine(...lines)).toBe(right);
  });
});

describe('the right value beside the choices of a question', () => {
  const messageOf = (...lines: readonly string[]): string =>
    checkNote(note(...lines)).findings.at(-1)!.message;

  it('is in degrees and minutes as they are', () => {
    expect(
      messageOf('a: 51° 40′', 'b = a', 'find: b', 'option A: 51° 30′', 'option B: 51° 50′', 'answer = A'),
    ).toBe('no choice is right: b is 51° 40′');
  });

  it('is in degrees and minutes also where it has no end', () => {
    // arcsin 0.6 = 36.8699°, and 0.8699 × 60 = 52.19
    expect(
      messageOf('s: 0.6', 'a = arcsin(s)', 'find: a', 'option A: 36° 50′', 'option B: 36° 52′', 'answer = A'),
    ).toBe('the key says A, but a is 36° 52′, which is choice B');
  });

  it('is in their unit and with a power of ten as they are', () => {
    expect(
      messageOf(
        'F: 20.0 N ± 0.1 N',
        'D: 0.51 mm ± 0.01 mm',
        'p = 4 × F/(pi D^2)',
        'find: p',
        'option A: 2.4 × 10^7 N/m^2',
        'option B: 9.8 × 10^7 N/m^2',
        'answer = A',
      ),
    ).toBe('the key says A, but p is 9.79038 × 10^7 N/m^2, which is choice B');
  });
});

// 20 × 0.9 = 18; 100 lines of 50 are two turns; 10 × 11/7 = 110/7.
describe('divisions', () => {
  it.each([
    ['vernier scale: 10 VSD = 9 MSD', '20 VSD = 19 MSD', '18 MSD'],
    ['vernier scale: 7 VSD = 11 MSD', '10 VSD = 15 MSD', '110/7 MSD'],
    ['circular scale: 1 rotation = 50 CSD', '100 CSD = 3 rotations', '2 rotations'],
  ])('%s makes of %s %s', (scale, claim, right) => {
    const { findings } = checkNote(note('1 MSD: 1 mm', scale, claim));
    expect(findings.map(({ computed, fixes }) => [computed, fixes[0]?.title])).toEqual([
      [right, `Write ${right}`],
    ]);
  });
});
