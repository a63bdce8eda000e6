import { claimFinding, problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const ambiguousExpression: Rule = {
  name: 'ambiguous-expression',
  severity: 'error',
  summary: 'two readings are possible',
  explanation:
    'A formula that can be read in two ways is not guessed at: a / b c, a number beside a number, 3·2 between digits, a word that is both a unit and a name where both readings fit. Each reading is offered as a fix.',
  example: `\`\`\`measurement ferrule
d: 7.42 cm
h: 3.10 cm
volume v = pi d^2 / 4 h
#          ^^^^^^^^^^^^ error ambiguous-expression
\`\`\`
`,
  run(note) {
    const doubtful = note.verdicts.flatMap(verdict =>
      verdict.kind === 'lack' && verdict.lack.kind === 'two-readings'
        ? [
            claimFinding(ambiguousExpression, note, verdict, {
              message:
                'a word here is both a unit and a name of this block, and both readings or neither fit; write a multiplication sign before the name, or brackets around the value',
            }),
          ]
        : [],
    );
    return [...problemFindings(ambiguousExpression, note), ...doubtful];
  },
};
