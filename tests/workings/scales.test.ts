import { describe, expect, test } from 'vitest';
import { blockNote, termLines, workingLines } from './sound-workings.ts';

// Every number worked by hand from the scales; the way of writing is common practice, no source.

const PLAIN = ['main scale: 1 cm = 20 MSD', 'vernier scale: 25 VSD = 24 MSD'];

describe('divisions', () => {
  test('one main division is the length over their number', () => {
    expect(workingLines(blockNote(...PLAIN), 'Main scale division')).toEqual(['1 MSD = 1 cm / 20 = 0.05 cm']);
  });
  test('one vernier division is its part of a main one', () => {
    expect(workingLines(blockNote(...PLAIN), 'Vernier scale division')).toEqual([
      '1 VSD = 24/25 × S = 24/25 × 0.05 cm = 0.048 cm',
    ]);
  });
  test('a claim of the block says the unit, and the step into it is shown', () => {
    const note = blockNote(...PLAIN, '1 MSD = 0.5 mm');
    expect(workingLines(note, 'Main scale division')).toEqual(['1 MSD = 1 cm / 20 = 10 mm / 20 = 0.5 mm']);
  });
  test('two neighbouring marks keep their places', () => {
    const note = blockNote('MSR: between 7.35 cm and 7.40 cm', 'vernier scale: 25 VSD = 24 MSD', 'n: 4');
    expect(workingLines(note, 'Main scale division')).toEqual([
      '(The zero stands between two neighbouring marks, one division apart)',
      '1 MSD = 7.40 cm - 7.35 cm = 0.05 cm',
    ]);
  });
  test('a division without end stays a fraction', () => {
    expect(
      workingLines(
        blockNote('main scale: 3 cm = 7 MSD', 'vernier scale: 10 VSD = 9 MSD'),
        'Main scale division',
      ),
    ).toEqual(['1 MSD = 3 cm / 7 = (3/7) cm']);
  });
  test('what is recorded as it is has no working', () => {
    const note = blockNote('main scale: 1 MSD = 1 mm', 'vernier scale: 10 VSD = 9 MSD');
    expect(() => workingLines(note, 'Main scale division')).toThrow();
  });
});

describe('the pitch', () => {
  test('from so many rotations', () => {
    expect(termLines(blockNote('screw: 5 rotations = 2.5 mm', 'circular scale: 50'), 'pitch')).toEqual([
      '(5 rotations move the screw by 2.5 mm)',
      'pitch = 2.5 mm / 5 = 0.5 mm',
    ]);
  });
  test('from a given least count', () => {
    expect(termLines(blockNote('least count: 0.01 mm', 'circular scale: 50'), 'pitch')).toEqual([
      'pitch = 50 × LC = 50 × 0.01 mm = 0.5 mm',
    ]);
  });
  test('where nothing else is said, one linear division', () => {
    expect(termLines(blockNote('linear scale: 1 mm = 2 LSD', 'circular scale: 50'), 'pitch')).toEqual([
      '(Where nothing else is said, one rotation passes one division of the linear scale)',
      'pitch = LSD = 0.5 mm',
    ]);
  });
  test('a given one has no working', () => {
    expect(termLines(blockNote('pitch: 0.5 mm', 'circular scale: 50'), 'pitch')).toEqual([]);
  });
});

describe('the least count', () => {
  const least = (...lines: string[]): string[] => termLines(blockNote(...lines), 'least count');
  const MM = 'main scale: 1 MSD = 1 mm';

  test('direct: S - V', () => {
    expect(least(...PLAIN)).toEqual(['least count = S - V = 0.05 cm - 0.048 cm = 0.002 cm']);
  });
  test('retrograde: V - S', () => {
    expect(least(MM, 'vernier scale: 10 VSD = 11 MSD')).toEqual([
      '(The vernier division is the longer one, so the main one is taken from it)',
      'least count = V - S = 1.1 mm - 1 mm = 0.1 mm',
    ]);
  });
  test('stretched: 2S - V', () => {
    expect(least(MM, 'vernier scale: 20 VSD = 39 MSD')).toEqual([
      '(One vernier division is a little less than 2 main divisions, so it is compared with 2 of them, not with one)',
      'least count = 2 × S - V = 2 mm - 1.95 mm = 0.05 mm',
    ]);
  });
  test('odd: the lines that come nearest', () => {
    expect(least(MM, 'vernier scale: 10 VSD = 7 MSD')).toEqual([
      '(S - V = 0.3 mm is not the smallest step here: 3 vernier divisions, 2.1 mm, come nearest to a whole number of main divisions, 2)',
      'least count = 3 × V - 2 × S = 2.1 mm - 2 mm = 0.1 mm',
    ]);
  });
  test('S / N where a vernier division has no decimal', () => {
    expect(least(MM, 'vernier scale: 30 VSD = 29 MSD')).toEqual([
      '(30 VSD are 29 MSD, so the two divisions differ by 1/30 of a main division)',
      'least count = S / N = 1 mm / 30 = (1/30) mm',
    ]);
  });
  test('in minutes', () => {
    expect(least('main scale: 1 MSD = 0.5°', 'vernier scale: 30 VSD = 29 MSD')).toEqual([
      'least count = S - V = 30′ - 29′ = 1′',
    ]);
  });
  test('in seconds', () => {
    expect(least('main scale: 1 MSD = 10′', 'vernier scale: 60 VSD = 59 MSD')).toEqual([
      'least count = S - V = 10′ - 9′ 50″ = 10″',
    ]);
  });
  test('a screw: pitch / N', () => {
    expect(least('pitch: 0.5 mm', 'circular scale: 50 divisions')).toEqual([
      'least count = pitch / N = 0.5 mm / 50 = 0.01 mm',
    ]);
  });
  test('a vernier on a drum', () => {
    expect(least('pitch: 0.5 mm', 'circular scale: 50', 'vernier scale: 10 VSD = 9 CSD')).toEqual([
      'least count = CSD - V = 0.01 mm - 0.009 mm = 0.001 mm',
    ]);
  });
  test('a bare scale', () => {
    expect(least('main scale: 1 cm = 20 MSD', 'MSR: 2.45 cm')).toEqual([
      '(A scale without a vernier tells its own divisions apart)',
      'least count = S = 0.05 cm',
    ]);
  });
  test('letters', () => {
    expect(
      least(
        'w: any length',
        'k: any whole number',
        'main scale: 1 MSD = w',
        'vernier scale: 2k VSD = (2k - 1) MSD',
      ),
    ).toEqual(['least count = S - V = w - (2k - 1)w/(2k) = w/(2k)']);
  });
  test('names that the block has given away are not used', () => {
    expect(least('S: 5 s', 'v: 3 m/s', MM, 'vernier scale: 20 VSD = 19 MSD')).toEqual([
      'least count = MSD - VSD = 1 mm - 0.95 mm = 0.05 mm',
    ]);
  });
  test('a given one has no working', () => expect(least('least count: 0.02 mm')).toEqual([]));
});
