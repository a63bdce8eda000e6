import { describe, expect, test } from 'vitest';
import { blockNote, termLines } from './sound-workings.ts';

// Every number worked by hand from the scales; the way of writing is common practice, no source.

const FIFTIETHS = ['main scale: 1 MSD = 1 mm', 'vernier scale: 50 VSD = 49 MSD'];
const SCREW = ['pitch: 0.5 mm', 'circular scale: 50'];
const LEFT =
  'The vernier zero stands left of the main zero, so the closed instrument reads less than zero and the zero error is negative';
const RIGHT =
  'The vernier zero stands right of the main zero, so the closed instrument reads more than zero and the zero error is positive';

function zero(...lines: string[]): string[] {
  return termLines(blockNote(...lines), 'zero error');
}

describe('the zero error of a vernier', () => {
  test('right of zero', () => {
    expect(zero(...FIFTIETHS, 'closed: vernier zero right, division 3')).toEqual([
      `(${RIGHT})`,
      'zero error = 3 × 0.02 mm = +0.06 mm',
    ]);
  });
  test('left of zero the division counts from the wrong end', () => {
    expect(zero(...FIFTIETHS, 'closed: vernier zero left, division 47')).toEqual([
      `(${LEFT}; division 47 counts from the wrong end, so it is 50 - 47)`,
      'zero error = -(50 - 47) × 0.02 mm = -0.06 mm',
    ]);
  });
  test('counted from the far end', () => {
    expect(zero(...FIFTIETHS, 'closed: vernier zero left, division 3 from the far end')).toEqual([
      `(${LEFT}; counted from the far end, the 3 divisions are what is missing)`,
      'zero error = -3 × 0.02 mm = -0.06 mm',
    ]);
  });
  test('no error', () => {
    expect(zero(...FIFTIETHS, 'closed: zeros coincide')).toEqual([
      '(Closed, the zeros coincide, so there is no zero error)',
      'zero error = 0 mm',
    ]);
  });
  test('several checks: their mean, the side told once', () => {
    expect(
      zero(...FIFTIETHS, 'closed: vernier zero left, division 47', 'closed: vernier zero left, division 45'),
    ).toEqual([
      `(${LEFT}; division 47 counts from the wrong end, so it is 50 - 47)`,
      '~ zero error 1 = -(50 - 47) × 0.02 mm = -0.06 mm',
      '(Division 45 counts from the wrong end, so it is 50 - 45)',
      '~ zero error 2 = -(50 - 45) × 0.02 mm = -0.10 mm',
      '(The mean of the two checks)',
      'zero error = (-0.06 mm - 0.10 mm) / 2 = -0.08 mm',
    ]);
  });
  test('a vernier that counts down', () => {
    const lines = ['main scale: 1 MSD = 1 mm', 'vernier scale: 10 VSD = 11 MSD'];
    expect(zero(...lines, 'closed: vernier zero left, division 3')).toEqual([
      `(${LEFT}; on this vernier line 3 has fallen 3 least counts behind)`,
      'zero error = -3 × 0.1 mm = -0.3 mm',
    ]);
    expect(zero(...lines, 'closed: vernier zero right, division 9')).toEqual([
      `(${RIGHT}; on this vernier line 9 stands for 10 - 9 least counts)`,
      'zero error = (10 - 9) × 0.1 mm = +0.1 mm',
    ]);
  });
  test('an odd vernier: by the scales themselves', () => {
    expect(
      zero(
        'main scale: 1 MSD = 1 mm',
        'vernier scale: 10 VSD = 7 MSD',
        'closed: vernier zero left, division 3',
      ),
    ).toEqual([
      '(Line 3 of the vernier is in line with mark m of the main scale)',
      '~ x + 3 × V = m × S',
      '~ 3 × V = 3 × 0.7 mm = 2.1 mm',
      '(From -1 mm ≤ x < 0 mm follows 1.1 mm ≤ m × S < 2.1 mm, and only one mark stands there)',
      '~ m × S = 2 mm',
      `(${LEFT})`,
      'zero error = 2 mm - 3 × 0.7 mm = -0.1 mm',
    ]);
  });
});

describe('the zero error of a screw', () => {
  test('above the line', () => {
    expect(zero(...SCREW, 'closed: circular zero above the line, division 47')).toEqual([
      '(The circular zero stands above the line, so the closed instrument reads less than zero and the zero error is negative; division 47 counts from the wrong end, so it is 50 - 47)',
      'zero error = -(50 - 47) × 0.01 mm = -0.03 mm',
    ]);
  });
  test('so many divisions below the line', () => {
    expect(zero(...SCREW, 'closed: 4 divisions below the line')).toEqual([
      '(Closed, the zero stands below the line, so the instrument reads more than zero and the zero error is positive)',
      'zero error = 4 × 0.01 mm = +0.04 mm',
    ]);
  });
  test('three scales, short of zero', () => {
    const lines = [...SCREW, 'vernier scale: 10 VSD = 9 CSD'];
    expect(zero(...lines, 'closed: circular zero above the line, division 48, vernier division 6')).toEqual([
      '(The circular zero stands above the line, so the closed instrument reads less than zero and the zero error is negative; the drum has not come round to its zero, so one rotation, 0.5 mm, is taken off)',
      'zero error = 48 × 0.01 mm + 6 × 0.001 mm - 0.5 mm = -0.014 mm',
    ]);
  });
});

test('a sextant, off the arc', () => {
  const lines = ['instrument: sextant', 'main scale: 1 MSD = 10′', 'vernier scale: 60 VSD = 59 MSD'];
  expect(zero(...lines, 'closed: 13 divisions off the arc')).toEqual([
    '(Closed, the zero stands off the arc, so the instrument reads less than zero and the zero error is negative)',
    'zero error = -13 × 10″ = -2′ 10″',
  ]);
});

describe('the correction', () => {
  const lines = [...SCREW, 'LSR: 6 mm', 'CSR: 34', 'closed: circular zero above the line, division 47'];
  test('is the zero error with the other sign', () => {
    expect(termLines(blockNote(...lines), 'zero correction')).toEqual([
      'zero correction = -zero error = -(-0.03 mm) = +0.03 mm',
    ]);
  });
  test('a negative error stands in brackets', () => {
    expect(termLines(blockNote(...lines), 'corrected reading')).toEqual([
      'corrected reading = observed reading - zero error = 6.34 mm - (-0.03 mm) = 6.37 mm',
    ]);
  });
  test('in the unit of the reading', () => {
    const note = blockNote(...FIFTIETHS, 'closed: vernier zero right, division 3', 'MSR: 2.4 cm', 'n: 17');
    expect(termLines(note, 'corrected reading')).toEqual([
      '(The reading is in cm, so the zero error goes in as +0.006 cm)',
      'corrected reading = observed reading - zero error = 2.434 cm - 0.006 cm = 2.428 cm',
    ]);
  });
  test('a mean of checks without end goes in as the sum over their number', () => {
    const checks = [
      'closed: 3 divisions above the line',
      'closed: 2 divisions above the line',
      'closed: 1 division below the line',
    ];
    expect(termLines(blockNote(...SCREW, 'LSR: 6 mm', 'CSR: 20', ...checks), 'corrected reading')).toEqual([
      'corrected reading = observed reading - zero error = 6.20 mm - (-0.04 mm / 3) ≈ 6.21 mm',
    ]);
  });
  test('from a given correction', () => {
    expect(zero(...FIFTIETHS, 'zero correction: -0.04 mm')).toEqual([
      'zero error = -zero correction = -(-0.04 mm) = +0.04 mm',
    ]);
  });
  test('a given zero error has no working', () => expect(zero('zero error: +0.02 cm')).toEqual([]));
});

test('of many checks only some stand in the table', () => {
  const checks = Array.from(
    { length: 90 },
    (_, index) => `closed: vernier zero right, division ${index % 3}`,
  );
  const lines = zero(...FIFTIETHS, ...checks);
  expect(lines.length).toBeLessThan(70);
  expect(lines.at(-1)).toBe('zero error = 1.80 mm / 90 = +0.02 mm');
});
