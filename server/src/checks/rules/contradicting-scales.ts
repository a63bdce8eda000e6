import { divisionsInstead } from '../divisions-instead.ts';
import { claimFinding, findingAt, problemFindings } from '../finding-from.ts';
import type { NoteCheck } from '../note-check.ts';
import type { Rule } from '../rule.ts';
import type { Verdict } from '../verdict.ts';

export const contradictingScales: Rule = {
  name: 'contradicting-scales',
  severity: 'error',
  summary: 'two records of the scales exclude each other; both lines',
  explanation: `Scale lines are equations and hold together: 1 cm is 10 divisions, so one division is a millimetre. A
line that cannot be true beside those above it is not used, and both are shown, for either may be the wrong
one. A claim about the scales that excludes what is recorded is flagged as well.

Lines that say the same in other words, or add something new, are welcome: \`1 cm = 10 MSD\` and
\`1 MSD = 1 mm\`.`,
  example: `\`\`\`measurement bench-rule
main scale: 1 cm = 10 MSD
main scale: 1 MSD = 2 mm
#^^^^^^^^^^^^^^^^^^^^^^^ error contradicting-scales: this line excludes what the scales above say
\`\`\`
`,
  fixedExample: `\`\`\`measurement bench-rule
main scale: 1 cm = 10 MSD
main scale: 1 MSD = 1 mm
\`\`\`
`,
  run(note) {
    const records = note.facts.blocks().flatMap(facts =>
      facts.scales().troubles.flatMap(trouble => {
        const { spans } = facts.scales();
        const span = spans[trouble.source];
        if (span === undefined || trouble.kind === 'mismatch') return [];
        if (trouble.kind === 'no-size')
          return [
            findingAt(contradictingScales, facts.measurement, span, {
              message: `by this line the ${trouble.division === 'rotation' ? 'rotation' : `${trouble.division} scale division`} would be nothing or less, so it cannot be right`,
            }),
          ];
        const against = spans[trouble.against];
        return [
          findingAt(contradictingScales, facts.measurement, span, {
            message:
              'this line excludes what the scales above say, so it is not used; one of the two must be wrong',
            related:
              against === undefined ? [] : [{ span: against, message: 'the line that it contradicts' }],
          }),
        ];
      }),
    );
    const claims = note.verdicts.flatMap(verdict =>
      verdict.kind === 'excluded'
        ? [
            claimFinding(contradictingScales, note, verdict, {
              message: excludedText(note, verdict),
              related:
                verdict.against === null
                  ? []
                  : [{ span: verdict.against, message: 'the record of the scales' }],
            }),
          ]
        : [],
    );
    return [...problemFindings(contradictingScales, note), ...records, ...claims];
  },
};

function excludedText(note: NoteCheck, verdict: Verdict): string {
  return (
    divisionsInstead(note.facts.block(verdict.block), verdict)?.said ??
    'this does not agree with what the scales are recorded to be'
  );
}
