import { claimFinding } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const untracedNumber: Rule = {
  name: 'untraced-number',
  severity: 'warning',
  summary: 'numbers that stand for nothing in the block',
  explanation: `A quantity that is worked out from mere numbers must show where they come from: each should be a value of
the block, or round one. A number that stands for nothing cannot be checked, and often it is a digit that
was copied wrongly.

Record the values and let the formula name them. Pi in its usual forms and whole numbers up to 12 need no
origin.`,
  example: `\`\`\`measurement bell-metal
density rho = 50.1 g / 6.71 cm^3 = 7.47 g/cm^3
#             ^^^^^^^^^^^^^^^^^^ warning untraced-number: 50.1 g and 6.71 cm^3
\`\`\`
`,
  fixedExample: `\`\`\`measurement bell-metal
m: 50.1 g
v: 6.71 cm^3
density rho = m / v = 7.47 g/cm^3
\`\`\`
`,
  run(note) {
    return note.verdicts.flatMap(verdict => {
      if (verdict.kind !== 'untraced') return [];
      const texts = verdict.numbers.map(({ text }) => text);
      const one = texts.length === 1;
      return [
        claimFinding(untracedNumber, note, verdict, {
          message: `${texts.slice(0, 4).join(' and ')} ${one ? 'stands' : 'stand'} for nothing in this block, so nobody can tell where ${one ? 'it comes' : 'they come'} from; record what ${one ? 'it is' : 'they are'}`,
        }),
      ];
    });
  },
};
