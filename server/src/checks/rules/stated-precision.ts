import { claimFinding, claimName } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const statedPrecision: Rule = {
  name: 'stated-precision',
  severity: 'warning',
  summary: 'right, but too few or too many places',
  explanation:
    'A reading is written with the places that the least count gives, neither fewer nor more (a mean may have one more). A result that is worked out may have one place past the first digit of its error.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
coinciding division: 0
observed reading = 2.45 cm
#                  ^^^^^^^ warning stated-precision
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
coinciding division: 0
observed reading = 2.450 cm
\`\`\`
`,
  run(note) {
    return note.verdicts.flatMap(verdict => {
      if (verdict.kind !== 'places') return [];
      const text = note.text.slice(verdict.span.start, verdict.span.end);
      const why =
        verdict.too === 'few'
          ? 'shows fewer places than the least count gives'
          : 'shows more places than the data carry';
      return [
        claimFinding(statedPrecision, note, verdict, {
          message:
            `${claimName(verdict.claim)} is right, but ${text} ${why}; ${verdict.shown} is enough`.replace(
              'is enough',
              verdict.too === 'few' ? 'says how finely it was read' : 'is enough',
            ),
          stated: text,
          computed: verdict.shown,
          fixes: [
            {
              title: `Write ${verdict.shown}`,
              edits: [{ span: verdict.span, newText: verdict.shown }],
              sure: true,
            },
          ],
        }),
      ];
    });
  },
};
