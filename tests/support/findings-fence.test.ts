import { expect, it } from 'vitest';
import { checkThatFinds } from './fake-check.ts';
import { withFindings } from './findings-fence.ts';

const check = checkThatFinds({
  '2.494 cm': {
    block: 'axle-sleeve',
    term: 'observed reading',
    stated: '2.494 cm',
    computed: '2.484 cm',
    slip: 'digits-swapped',
    related: [{ span: { start: 0, end: 1 }, message: 'here' }],
    fixes: [{ title: 'write 2.484 cm', sure: true, edits: [{ span: { start: 20, end: 22 }, newText: '"' }] }],
  },
});

it('writes the whole report of what stands above into a fence', () => {
  expect(withFindings('R = 2.494 cm\n\n```findings\nold\n```\n', check)).toBe(
    [
      'R = 2.494 cm',
      '',
      '```findings',
      '1:5-13 error wrong-value [digits-swapped]',
      '  about axle-sleeve, observed reading',
      '  the reading is 2.484 cm',
      '  stated 2.494 cm',
      '  right 2.484 cm',
      '  see 1:1-2 here',
      '  surely write 2.484 cm',
      '    3:7-9 "\\""',
      '```',
      '',
    ].join('\n'),
  );
});

it('gives every fence what stands between it and the one above, with the lines as they are in the end', () => {
  const written = withFindings(
    '```findings\n```\nR = 2.494 cm\n```findings\n```\n',
    checkThatFinds({ '2.494 cm': {} }),
  );
  expect(written).toBe(
    '```findings\nnothing to correct\n```\nR = 2.494 cm\n```findings\n4:5-13 error wrong-value\n  about the note\n  the reading is 2.484 cm\n```\n',
  );
});

it('leaves a note alone whose fences are right', () => {
  const written = withFindings('R = 2.494 cm\n\n```findings\n```\n', check);
  expect(withFindings(written, check)).toBe(written);
});
