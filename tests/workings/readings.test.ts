import { describe, expect, test } from 'vitest';
import { blockNote, termLines, workingLines } from './sound-workings.ts';

// Every number worked by hand from the scales; the way of writing is common practice, no source.

const MM = 'main scale: 1 MSD = 1 mm';

function observed(lines: readonly string[], way: 'scales' | null = null): string[] {
  return termLines(blockNote(...lines), 'observed reading', way);
}

describe('a vernier by the least count', () => {
  test('in the unit of the mark', () => {
    const lines = ['main scale: 1 MSD = 0.5 mm', 'vernier scale: 25 VSD = 24 MSD', 'MSR: 2.45 cm', 'n: 17'];
    expect(observed(lines)).toEqual([
      '(The reading is in cm, so the least count goes in as 0.002 cm)',
      'observed reading = MSR + n × LC = 2.45 cm + 17 × 0.002 cm = 2.484 cm',
    ]);
  });
  test('numbered along a longer division it counts down', () => {
    expect(observed([MM, 'vernier scale: 10 VSD = 11 MSD', 'MSR: 14 mm', 'n: 3'])).toEqual([
      '(The vernier division is the longer one, so line n stands for N - n least counts)',
      'observed reading = MSR + (N - n) × LC = 14 mm + (10 - 3) × 0.1 mm = 14.7 mm',
    ]);
  });
  test('numbered backward it counts up again', () => {
    const lines = [MM, 'vernier scale: 10 VSD = 11 MSD', 'vernier runs: backward', 'MSR: 14 mm', 'n: 3'];
    expect(observed(lines)).toEqual(['observed reading = MSR + n × LC = 14 mm + 3 × 0.1 mm = 14.3 mm']);
  });
  test('line 0 of one that counts down', () => {
    expect(observed([MM, 'vernier scale: 10 VSD = 11 MSD', 'MSR: 14 mm', 'n: 0'])).toEqual([
      '(Line 0 is in line, so the zero of the vernier stands just on the mark)',
      'observed reading = MSR = 14.0 mm',
    ]);
  });
  test('two lines share the coincidence', () => {
    const lines = [
      'MSR: between 7.35 cm and 7.40 cm',
      'vernier scale: 25 VSD = 24 MSD',
      'n: between 17 and 18',
    ];
    expect(observed(lines)).toEqual([
      '(Lines 17 and 18 share the coincidence, so halfway between them counts)',
      'observed reading = MSR + n × LC = 7.35 cm + 17.5 × 0.002 cm = 7.385 cm',
    ]);
  });
  test('degrees and minutes', () => {
    const lines = ['main scale: 1 MSD = 0.5°', 'vernier scale: 30 VSD = 29 MSD', 'MSR: 24.5°', 'n: 7'];
    expect(observed(lines)).toEqual(['observed reading = MSR + n × LC = 24° 30′ + 7 × 1′ = 24° 37′']);
  });
  test('only the least count is given', () => {
    expect(observed(['least count: 0.02 mm', 'MSR: 31 mm', 'n: 38'])).toEqual([
      'observed reading = MSR + n × LC = 31 mm + 38 × 0.02 mm = 31.76 mm',
    ]);
  });
  test('a mark that is counted', () => {
    expect(
      observed(['main scale: 1 cm = 20 MSD', 'vernier scale: 25 VSD = 24 MSD', 'MSR: 49 MSD', 'n: 17']),
    ).toEqual(['observed reading = MSR + n × LC = 49 × 0.05 cm + 17 × 0.002 cm = 2.484 cm']);
  });
  test('letters', () => {
    const letters = ['w: any length', 'k: any whole number', 'r: any whole number', 'main scale: 1 MSD = w'];
    expect(observed([...letters, 'vernier scale: k VSD = (k - 1) MSD', 'MSR: 4 MSD', 'n: r'])).toEqual([
      'observed reading = MSR + n × LC = 4 × w + r × w/k = (4k + r)w/k',
    ]);
  });
});

describe('a vernier by the scales themselves', () => {
  test('asked for', () => {
    const lines = ['main scale: 1 cm = 20 MSD', 'vernier scale: 25 VSD = 24 MSD', 'MSR: 2.45 cm', 'n: 17'];
    expect(observed(lines, 'scales')).toEqual([
      '(Line 17 of the vernier is in line with mark m of the main scale)',
      '~ x + 17 × V = m × S',
      '~ 17 × V = 17 × 0.048 cm = 0.816 cm',
      '(From 2.45 cm ≤ x < 2.50 cm follows 3.266 cm ≤ m × S < 3.316 cm, and only one mark stands there)',
      '~ m × S = 66 × 0.05 cm = 3.30 cm',
      'observed reading = 66 × 0.05 cm - 17 × 0.048 cm = 2.484 cm',
    ]);
  });
  test('where n × LC does not hold', () => {
    expect(observed([MM, 'vernier scale: 10 VSD = 7 MSD', 'MSR: 9 mm', 'n: 4'])).toEqual([
      '(On this vernier line 4 does not stand for 4 least counts, so the scales themselves are compared. Line 4 of the vernier is in line with mark m of the main scale)',
      '~ x + 4 × V = m × S',
      '~ 4 × V = 4 × 0.7 mm = 2.8 mm',
      '(From 9 mm ≤ x < 10 mm follows 11.8 mm ≤ m × S < 12.8 mm, and only one mark stands there)',
      '~ m × S = 12 mm',
      'observed reading = 12 mm - 4 × 0.7 mm = 9.2 mm',
    ]);
  });
  test('backward the lines stand behind the zero', () => {
    const lines = [MM, 'vernier scale: 10 VSD = 9 MSD', 'vernier runs: backward', 'MSR: 14 mm', 'n: 3'];
    expect(observed(lines, 'scales')).toEqual([
      '(Line 3 of the vernier, 3 divisions behind its zero, is in line with mark m of the main scale)',
      '~ x - 3 × V = m × S',
      '~ 3 × V = 3 × 0.9 mm = 2.7 mm',
      '(From 14 mm ≤ x < 15 mm follows 11.3 mm ≤ m × S < 12.3 mm, and only one mark stands there)',
      '~ m × S = 12 mm',
      'observed reading = 12 mm + 3 × 0.9 mm = 14.7 mm',
    ]);
  });
  test('from the mark in line', () => {
    expect(observed([MM, 'vernier scale: 10 VSD = 9 MSD', 'n: 8', 'coinciding main mark: 21 mm'])).toEqual([
      '(The zero of the vernier stands 8 vernier divisions back from the mark in line)',
      'observed reading = coinciding main mark - n × V = 21 mm - 8 × 0.9 mm = 13.8 mm',
    ]);
  });
});

describe('a screw', () => {
  test('LSR + CSR × LC, the places of the mark kept', () => {
    expect(observed(['pitch: 0.5 mm', 'circular scale: 50', 'LSR: 6.0 mm', 'CSR: 34'])).toEqual([
      'observed reading = LSR + CSR × LC = 6.0 mm + 34 × 0.01 mm = 6.34 mm',
    ]);
  });
  test('a pitch that spans two marks', () => {
    const lines = [
      'pitch: 1 mm',
      'linear scale: 1 mm = 2 LSD',
      'circular scale: 100',
      'LSR: 7.5 mm',
      'CSR: 83',
    ];
    expect(observed(lines)).toEqual([
      '(The mark 7.5 mm is no whole number of rotations of 1 mm; the circular scale shows 83 once in every rotation, and of those places only 7.83 mm lies from the mark on and before the next, 8 mm)',
      '~ whole rotations = 7 mm',
      'observed reading = 7 mm + 83 × 0.01 mm = 7.83 mm',
    ]);
  });
  test('three scales', () => {
    const lines = [
      'pitch: 0.5 mm',
      'circular scale: 50',
      'vernier scale: 10 VSD = 9 CSD',
      'LSR: 1.5 mm',
      'CSR: 27',
      'n: 6',
    ];
    expect(observed(lines)).toEqual([
      'observed reading = LSR + CSR × CSD + n × LC = 1.5 mm + 27 × 0.01 mm + 6 × 0.001 mm = 1.776 mm',
    ]);
  });
  test('between two divisions', () => {
    expect(
      observed(['pitch: 1 mm', 'circular scale: 100', 'LSR: 1 division', 'CSR: between 64 and 65']),
    ).toEqual([
      '(The line stands between 64 and 65 of the circular scale, so halfway between them is taken)',
      'observed reading = LSR × LSD + CSR × LC = 1 mm + 64.5 × 0.01 mm = 1.645 mm',
    ]);
  });
  test('rotations that were counted', () => {
    expect(observed(['pitch: 0.5 mm', 'circular scale: 50', 'full rotations: 4', 'CSR: 3'])).toEqual([
      'observed reading = full rotations × pitch + CSR × LC = 4 × 0.5 mm + 3 × 0.01 mm = 2.03 mm',
    ]);
  });
  const disc = ['instrument: spherometer', 'pitch: 1 mm', 'circular scale: 100', 'full rotations: 1'];
  test('a disc turned past its zero', () => {
    const lines = [
      ...disc,
      'initial circular reading: 92',
      'final circular reading: 15',
      'turned: toward higher numbers',
    ];
    expect(observed(lines)).toEqual([
      '(Turned toward higher numbers, from 92 by way of 0 to 15, the disc went on beyond its whole rotations)',
      '~ divisions turned = 100 - 92 + 15 = 23',
      'observed reading = full rotations × pitch + 23 × LC = 1 mm + 23 × 0.01 mm = 1.23 mm',
    ]);
  });
  test('a disc turned down', () => {
    const lines = [
      ...disc,
      'initial circular reading: 66',
      'final circular reading: 12',
      'turned: toward lower numbers',
    ];
    expect(observed(lines).slice(1)).toEqual([
      '~ divisions turned = 66 - 12 = 54',
      'observed reading = full rotations × pitch + 54 × LC = 1 mm + 54 × 0.01 mm = 1.54 mm',
    ]);
  });
  test('a dial with two hands', () => {
    const lines = [
      'instrument: dial gauge',
      'screw: 1 rotation = 1 mm',
      'dial: 100 divisions',
      'small hand: 3 turns',
      'large hand: 12',
    ];
    expect(observed(lines)).toEqual(['observed reading = LSR + CSR × LC = 3 mm + 12 × 0.01 mm = 3.12 mm']);
  });
});

describe('rows of a table', () => {
  const head = ['pitch: 1 mm', 'circular scale: 100', 'zero error: -0.04 mm', '| label | LSR | CSR |'];
  const two = blockNote(...head, '| plate | 0 mm | 6 |', '| glass | 1 mm | 88 |');
  const four = blockNote(
    ...head.slice(0, 3),
    '| LSR | CSR |',
    ...[3, 5, 4, 4].map(csr => `| 7 mm | 3${csr} |`),
  );

  test('the formula stands once, before the first', () => {
    expect(workingLines(two, 'Observed reading of plate')).toEqual([
      '~ observed reading = LSR + CSR × LC',
      'observed reading of plate = 0 mm + 6 × 0.01 mm = 0.06 mm',
    ]);
    expect(workingLines(two, 'Corrected reading of glass')).toEqual([
      'corrected reading of glass = 1.88 mm - (-0.04 mm) = 1.92 mm',
    ]);
  });
  test('of many rows the first is worked, the others stand in a table', () => {
    expect(workingLines(four, 'Corrected reading of row 1')).toEqual([
      '~ corrected reading = observed reading - zero error',
      'corrected reading of row 1 = 7.33 mm - (-0.04 mm) = 7.37 mm',
      '(The other rows in the same way)',
      'row | LSR | CSR | observed reading | corrected reading',
      '2 | 7 mm | 35 | 7.35 mm | 7.39 mm',
      '3 | 7 mm | 34 | 7.34 mm | 7.38 mm',
      '4 | 7 mm | 34 | 7.34 mm | 7.38 mm',
    ]);
    expect(() => workingLines(four, 'Observed reading of row 2')).toThrow();
  });
});

describe('what a given reading shows', () => {
  const given = ['main scale: 1 cm = 20 MSD', 'vernier scale: 25 VSD = 24 MSD', 'observed reading: 2.484 cm'];
  test('the mark', () => {
    expect(termLines(blockNote(...given), 'main scale reading')).toEqual([
      '(The last mark at or before 2.484 cm)',
      'main scale reading = 49 × 0.05 cm = 2.45 cm',
    ]);
  });
  test('the line', () => {
    expect(termLines(blockNote(...given), 'coinciding division')).toEqual([
      'coinciding division = (observed reading - MSR) / LC = (2.484 cm - 2.45 cm) / 0.002 cm = 17',
    ]);
  });
  test('the given reading itself has no working', () => {
    expect(termLines(blockNote(...given), 'observed reading')).toEqual([]);
  });
  test('from the true size back to what was read', () => {
    const lines = ['corrected reading: 7.26 mm', 'zero error: -0.03 mm'];
    expect(observed(lines)).toEqual([
      '(The instrument shows the true size and its zero error with it)',
      'observed reading = corrected reading + zero error = 7.26 mm + (-0.03 mm) = 7.23 mm',
    ]);
  });
});

test('what the vernier adds keeps its places', () => {
  expect(
    termLines(
      blockNote(MM, 'vernier scale: 20 VSD = 19 MSD', 'MSR: 24 mm', 'n: 14'),
      'vernier scale reading',
    ),
  ).toEqual(['vernier scale reading = n × LC = 14 × 0.05 mm = 0.70 mm']);
});
