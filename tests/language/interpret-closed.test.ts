import { describe, expect, test } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';

// A screw of 0.5 mm with 50 divisions: one is 0.01 mm. A vernier of 10 on 9 mm: its least count is 0.1 mm.
const SCREW = 'pitch: 0.5 mm\ncircular scale: 50 divisions';
const VERNIER = 'main scale: 1 MSD = 1 mm\nvernier scale: 10 VSD = 9 MSD';
// One drum division is 0.01 mm, its vernier's least count a tenth of it.
const VERNIER_MICROMETER = `${SCREW}\nvernier scale: 10 VSD = 9 CSD`;
// Main divisions of 20′ and 40 lines: the least count is half a minute.
const SEXTANT = 'main scale: 1 deg = 3 MSD\nvernier scale: 40 VSD = 39 MSD';

function checked(scales: string, closed: string, more: string): ReturnType<typeof checkNote>['findings'] {
  return checkNote(`\`\`\`measurement stand\n${scales}\nclosed: ${closed}\n${more}\`\`\`\n`).findings;
}

describe('the whole statement is read', () => {
  test.each([
    // So many divisions above the line are so many hundredths short; division 47 is 3 short of 50.
    [SCREW, 'circular zero above the line by 3 divisions', '-0.03 mm'],
    [SCREW, 'circular zero above the line, 3 divisions', '-0.03 mm'],
    [SCREW, 'circular zero above the line (3 divisions)', '-0.03 mm'],
    [SCREW, 'circular zero 3 divisions above the line', '-0.03 mm'],
    [SCREW, '3 divisions above the line', '-0.03 mm'],
    [SCREW, 'zero of the circular scale is below the line by 3 divisions', '+0.03 mm'],
    [SCREW, 'circular zero above the line, division 47', '-0.03 mm'],
    [SCREW, 'circular zero above the line, 47th division in line', '-0.03 mm'],
    [
      SCREW,
      'circular zero just above the reference line, reference line coincides with division 47',
      '-0.03 mm',
    ],
    // Halfway between two divisions is half a hundredth more.
    [SCREW, 'circular zero below the line, between 3 and 4', '+0.035 mm'],
    [SCREW, 'circular zero above the line, between 49 and 50', '-0.005 mm'],
    [SCREW, 'linear zero just visible, division 47', '-0.03 mm'],
    [SCREW, 'linear zero visible, division 3', '+0.03 mm'],
    [VERNIER, 'vernier zero right of 0, division 4', '+0.4 mm'],
    [VERNIER, 'vernier zero on the right, division 4', '+0.4 mm'],
    [VERNIER, 'vernier zero to the right of the main scale zero, 4th vernier line coincides', '+0.4 mm'],
    // Line 6 is 4 short of the tenth.
    [VERNIER, 'vernier zero left of main 0, division 6', '-0.4 mm'],
    [VERNIER, 'vernier zero left, division 4 from the right', '-0.4 mm'],
    [VERNIER, 'vernier zero left, 4 divisions from the end', '-0.4 mm'],
    [VERNIER, 'vernier zero left, division 0', '-1.0 mm'],
    // Halfway between 0.4 and 0.5; between -0.6 and -0.5; between -0.1 and 0.
    [VERNIER, 'vernier zero right, between 4 and 5', '+0.45 mm'],
    [VERNIER, 'vernier zero left, between 4 and 5', '-0.55 mm'],
    [VERNIER, 'vernier zero left, between divisions 9 and 10', '-0.05 mm'],
    [VERNIER, 'the zeros coincide exactly', '0.0 mm'],
    // 0.01 mm on the drum and 4 thousandths by the vernier; 0.494 mm is 6 thousandths short of a turn.
    [VERNIER_MICROMETER, 'circular zero below the line, division 1, vernier division 4', '+0.014 mm'],
    [VERNIER_MICROMETER, 'circular zero above the line, division 49, vernier division 4', '-0.006 mm'],
    [VERNIER_MICROMETER, '1 division below the line, vernier division 4', '+0.014 mm'],
    [VERNIER_MICROMETER, 'below the line by 1 division, 4th vernier division coincides', '+0.014 mm'],
    [SCREW, 'circular zero above, CSR = 47', '-0.03 mm'],
    [SCREW, 'circular zero on the line', '0.00 mm'],
    [SCREW, 'zero coincides with the reference line', '0.00 mm'],
    [VERNIER, 'vernier zero right, n = 4', '+0.4 mm'],
    [VERNIER, 'vernier zero coincides with main zero', '0.0 mm'],
    [SEXTANT, '3 minutes on the arc', "+3.0'"],
    [SEXTANT, "off the arc by 4'", "-4.0'"],
    [SEXTANT, '4 divisions on the arc', "+2.0'"],
  ])('%#: %s / %s', (scales, closed, error) => {
    expect(checked(scales, closed, `zero error = ${error}\n`)).toEqual([]);
  });
});

describe('what fits nowhere is told at its place, and nothing is recorded', () => {
  test.each([
    [SCREW, 'zero line coincides with division 47', 'zero line coincides with division 47', []],
    [SCREW, 'circular zero not above the line, division 3', 'not above the line', []],
    [SCREW, 'circular zero above the line, 3', '3', []],
    [SCREW, 'circular zero above the line, 47 division', '47 division', []],
    [SCREW, 'circular zero right, division 3', 'circular zero right, division 3', []],
    [SCREW, 'circular zero below the line, 0.03 mm', '0.03 mm', ['zero error: +0.03 mm']],
    [VERNIER, 'vernier zero right, 0.4 mm', '0.4 mm', ['zero error: +0.4 mm']],
    [VERNIER, 'vernier zero left by 0.4 mm', '0.4 mm', ['zero error: -0.4 mm']],
    [VERNIER, 'vernier zero left, 4th last division', '4th last division', []],
    [VERNIER, 'vernier zero left, 4 divisions', '4 divisions', ['division 4']],
    [VERNIER, 'vernier zero right, division 3 to 4', 'to 4', []],
    [VERNIER, 'vernier zero right, division -3', 'division -3', []],
    [VERNIER, 'vernier zero right, division#', 'division#', []],
    [VERNIER, 'vernier zero right, @', '@', []],
    [VERNIER, 'vernier zero right, main division 3', 'main division 3', []],
    [VERNIER, 'vernier zero right and left, division 3', 'vernier zero right and left, division 3', []],
    [VERNIER, 'zeros do not coincide', 'zeros do not coincide', []],
    [VERNIER_MICROMETER, 'circular zero above the line, vernier division 4', null, []],
  ])('%#: %s / %s', (scales, closed, place, offers) => {
    const text = `\`\`\`measurement stand\n${scales}\nclosed: ${closed}\nzero error = 0.12 mm\n\`\`\`\n`;
    const { findings } = checkNote(text);
    expect(findings.map(({ rule, span }) => [rule, text.slice(span.start, span.end)])).toEqual([
      ['unreadable-line', place ?? closed],
    ]);
    const fixes = findings.flatMap(finding => finding.fixes);
    expect(fixes.flatMap(fix => fix.edits.map(({ newText }) => newText))).toEqual(offers);
    expect(fixes.some(({ sure }) => sure)).toBe(false);
  });

  test('a pair of lines that are no neighbours', () => {
    const [finding] = checked(VERNIER, 'vernier zero right, between 4 and 6', '');
    expect(finding?.rule).toBe('impossible-reading');
  });
});
