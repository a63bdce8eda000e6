import { describe, expect, test } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';

// One division of the drum is 0.01 mm; the vernier's least count is 0.1 mm.
const SCREW = 'pitch: 0.5 mm\ncircular scale: 50 divisions\nLC = 0.01 mm';
const CORRECTED = `${SCREW}\nzero error: +0.02 mm`;
const VERNIER = 'main scale: 1 MSD = 1 mm\nvernier scale: 10 VSD = 9 MSD\nLC = 0.1 mm';

function checked(scales: string, ...table: readonly string[]): readonly (readonly [string, string])[] {
  const text = `\`\`\`measurement stem\n${scales}\n${table.join('\n')}\n\`\`\`\n`;
  return checkNote(text).findings.map(({ rule, span }) => [rule, text.slice(span.start, span.end)]);
}

describe('a formula of a reading heads a column, and its cells are checked', () => {
  // 33 divisions are 0.33 mm, on 2.5 mm they make 2.83 mm, 0.02 mm less 2.81 mm; line 3 is 0.3 mm, on 24 mm 24.3 mm.
  test.each([
    [SCREW, 'LSR (mm) | CSR', '2.5 | 33', 'CSR × LC (mm)', '0.33', '0.35'],
    [SCREW, 'LSR (mm) | CSR', '2.5 | 33', 'LSR + CSR × LC (mm)', '2.83', '2.88'],
    [SCREW, 'LSR (mm) | CSR', '2.5 | 33', 'R = LSR + CSR × LC (mm)', '2.83', '2.88'],
    [SCREW, 'LSR (mm) | CSR', '2.5 | 33', 'Total reading = LSR + CSR×LC (mm)', '2.83', '2.88'],
    [SCREW, 'LSR (mm) | CSR', '2.5 | 33', 'total reading (LSR + (CSR x LC)) (mm)', '2.83', '2.88'],
    [SCREW, 'PSR (mm) | HSR', '2.5 | 33', 'PSR + HSR × LC (mm)', '2.83', '2.88'],
    [SCREW, 'PSR (mm) | HSR', '2.5 | 33', 'PSR (mm) + HSR × L.C. (mm)', '2.83', '2.88'],
    [CORRECTED, 'LSR (mm) | CSR', '2.5 | 33', 'LSR + CSR × LC - ZE (mm)', '2.81', '2.83'],
    [CORRECTED, 'LSR (mm) | CSR', '2.5 | 33', 'd = observed reading + ZC (mm)', '2.81', '2.83'],
    [VERNIER, 'MSR (cm) | VC', '2.4 | 3', 'VC × LC (cm)', '0.03', '0.3'],
    [VERNIER, 'MSR (cm) | VC', '2.4 | 3', 'LC × n (cm)', '0.03', '0.3'],
    [VERNIER, 'MSR (mm) | VC', '24 | 3', 'MSR + n × VC (mm)', '24.3', '24.03'],
    [VERNIER, 'MSR (mm) | VC', '24 | 3', 'MSR + VSR (mm)', '24.3', '24.03'],
    [VERNIER, 'MSR (mm) | VC', '24 | 3', 'MSR + VSR × LC (mm)', '24.3', '24.03'],
  ])('%#: %s / %s / %s / %s', (scales, head, row, formula, right, wrong) => {
    expect(checked(scales, `| ${head} | ${formula} |`, `| ${row} | ${right} |`)).toEqual([]);
    expect(checked(scales, `| ${head} | ${formula} |`, `| ${row} | ${wrong} |`)).toEqual([
      ['wrong-value', wrong],
    ]);
  });

  test('the least count stays what it is', () => {
    const table = ['| LSR (mm) | CSR | CSR × LC (mm) |', '| 2.5 | 33 | 0.33 |'];
    expect(checked(SCREW.replace('0.01', '0.005'), ...table)).toEqual([['wrong-value', '0.005 mm']]);
  });

  test('the name before the formula means what it works out', () => {
    const table = [
      '| LSR (mm) | CSR | R = LSR + CSR × LC (mm) |',
      '| 2.5 | 33 | 2.83 |',
      '| 2.5 | 35 | 2.85 |',
    ];
    expect(checked(SCREW, ...table, 'mean of R = 2.84 mm')).toEqual([]);
  });
});

describe('a count in the head says what is counted', () => {
  test.each([
    [SCREW, '| LSR (mm) | CSR (div) | reading (mm) |', '| 2.5 | 33 | 2.83 |'],
    [SCREW, '| LSR / mm | CSR / div | reading / mm |', '| 2.5 | 33 | 2.83 |'],
    [SCREW, '| LSR (in mm) | CSR (no. of div.) | reading (mm) |', '| 2.5 | 33 | 2.83 |'],
    // Five marks of 0.5 mm.
    [SCREW, '| LSR (divisions) | CSR (CSD) | reading (mm) |', '| 5 | 33 | 2.83 |'],
    [VERNIER, '| MSR (mm) | VC (divisions) | reading (mm) |', '| 24 | 3 | 24.3 |'],
    [VERNIER, '| MSR (mm) | coinciding division (no.) | reading (mm) |', '| 24 | 3 | 24.3 |'],
  ])('%#: %s / %s', (scales, head, row) => {
    expect(checked(scales, head, row)).toEqual([]);
    expect(checked(scales, head, row.replace(/3 \|$/, '4 |'))).toHaveLength(1);
  });
});

test('a name of one’s own heads a column of records', () => {
  const head =
    '| T (s) | diameter (mm) | line (nm) | v / (m/s) | half-width (mm) | mean thickness d (mm) | t for 20 osc (s) |';
  expect(
    checked(SCREW, head, '| 1.2 | 3.1 | 589 | 2.5 | 4.0 | 0.52 | 24.0 |', 'mean of v = 2.5 m/s'),
  ).toEqual([]);
});
