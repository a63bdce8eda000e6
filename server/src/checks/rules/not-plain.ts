import { claimFinding, problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const notPlain: Rule = {
  name: 'not-plain',
  severity: 'error',
  summary: 'understood, but not in the form of the language: the first fix writes it so',
  explanation:
    'People in a hurry write VSR = 8 for the line in line, or put a sign into words. What is meant is clear enough to offer, but too far from what is written to be assumed. The first fix writes the line as it was meant.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
17th division coincides
#^^^^^^^^^^^^^^^^^^^^^^ error not-plain
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
coinciding division: 17
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
    return [...problemFindings(notPlain, note), ...hundred, ...corrected];
  },
};
