import { claimFinding, problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const limit: Rule = {
  name: 'limit',
  severity: 'error',
  summary: 'a stated limit is passed',
  explanation:
    'Input is bounded so that no note can stall the editor: exponents, digits, nesting, statements, rows. What passes a limit is said and left out; everything else is still checked.',
  example: `\`\`\`measurement trap
d: 1e99999 mm
#  ^^^^^^^ error limit
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
            message: 'this value grows past what the tool works with (some 300 digits)',
          }),
        ];
      return [];
    });
    return [...problemFindings(limit, note), ...claims];
  },
};
