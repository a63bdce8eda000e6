import { claimFinding, problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const notPlain: Rule = {
  name: 'not-plain',
  severity: 'error',
  summary: 'understood, but not in the form of the language: the first fix writes it so',
  explanation: `In a hurry people write \`VSR = 8\` for the line that coincides, \`17th division coincides\`, \`N = 25\`,
\`negative zero error = 0.04 cm\`, or an equals sign behind \`instrument\`. What is meant is clear enough to be
offered, but too far from what is written to be assumed, so it is not used until somebody says yes.

The first fix writes the line as it was meant. With all such fixes made at once an old solution becomes a
block.`,
  example: `\`\`\`measurement seat-post
main scale: 1 mm = 1 MSD
vernier scale: 50 VSD = 49 MSD
negative zero error = 0.04 mm
#^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error not-plain: the sign of a zero error belongs to its value
main scale reading: 27 mm
11th division coincides
#^^^^^^^^^^^^^^^^^^^^^^ error not-plain: recorded with its name and a colon
\`\`\`
`,
  fixedExample: `\`\`\`measurement seat-post
main scale: 1 mm = 1 MSD
vernier scale: 50 VSD = 49 MSD
zero error: -0.04 mm
main scale reading: 27 mm
coinciding division: 11
\`\`\`
`,
  run(note) {
    const hundred = note.verdicts
      .filter(verdict => verdict.kind === 'hundred')
      .map(verdict =>
        claimFinding(notPlain, note, verdict, {
          message:
            'a hundred without its sign makes this link a hundred times too large; the per cent sign belongs to it',
          fixes: [
            {
              title: 'Write the per cent sign',
              edits: [{ span: { start: verdict.span.end, end: verdict.span.end }, newText: ' %' }],
              sure: true,
            },
          ],
        }),
      );
    const shares = note.verdicts.flatMap(verdict =>
      verdict.kind === 'share'
        ? [
            claimFinding(notPlain, note, verdict, {
              message: `a percentage is stated in per cent, ${verdict.percent}; a share like this one is a relative error`,
              fixes: [
                {
                  title: `Write ${verdict.percent}`,
                  edits: [{ span: verdict.span, newText: verdict.percent }],
                  sure: true,
                },
              ],
            }),
          ]
        : [],
    );
    const corrected = note.verdicts
      .filter(verdict => verdict.kind === 'meant-corrected')
      .map(verdict =>
        claimFinding(notPlain, note, verdict, {
          message: 'this takes the zero error off, so it is the corrected reading, not the observed one',
          fixes: [
            {
              title: 'Write corrected reading',
              edits: [{ span: verdict.claim.subjectSpan, newText: 'corrected reading' }],
              sure: true,
            },
          ],
        }),
      );
    return [...problemFindings(notPlain, note), ...hundred, ...shares, ...corrected];
  },
};
