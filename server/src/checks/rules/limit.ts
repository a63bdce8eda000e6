import { claimFinding, findingAt, problemFindings } from '../finding-from.ts';
import { recordLacks } from '../record-lacks.ts';
import type { Rule } from '../rule.ts';
import { troubleText } from '../trouble-text.ts';

export const limit: Rule = {
  name: 'limit',
  severity: 'error',
  summary: 'a stated limit is passed',
  explanation: `What a block may hold is bounded, far beyond anything that is measured, so that no note can stall the
editor: the digits of a number, powers of ten, brackets within brackets, the statements of a block, the rows
of a table, references that rest on references. What passes a bound is said with the bound and left out;
everything else is still checked.`,
  example: `\`\`\`measurement chain-wear
d: 1e99999 mm
#  ^^^^^^^ error limit: powers of ten
\`\`\`
`,
  fixedExample: `\`\`\`measurement chain-wear
d: 1e-3 mm
\`\`\`
`,
  run(note) {
    const claims = note.verdicts.flatMap(verdict => {
      if (verdict.kind !== 'lack') return [];
      const { lack } = verdict;
      if (lack.kind === 'limit') return [claimFinding(limit, note, verdict, { message: lack.message })];
      if (lack.kind === 'trouble' && lack.trouble.kind === 'too-large')
        return [
          claimFinding(limit, note, verdict, {
            message: troubleText(lack.trouble),
          }),
        ];
      return [];
    });
    const records = recordLacks(note).flatMap(({ measurement, span, lack }) => {
      if (lack.kind === 'limit') return [findingAt(limit, measurement, span, { message: lack.message })];
      if (lack.kind === 'trouble' && lack.trouble.kind === 'too-large')
        return [findingAt(limit, measurement, lack.span ?? span, { message: troubleText(lack.trouble) })];
      return [];
    });
    return [...problemFindings(limit, note), ...records, ...claims];
  },
};
