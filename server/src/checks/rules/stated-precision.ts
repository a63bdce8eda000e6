import type { Claim } from '../../language/measurement.ts';
import { isReading } from '../agreement.ts';
import { claimFinding, claimName, valueSpan } from '../finding-from.ts';
import type { Rule } from '../rule.ts';
import { valueEdit } from '../value-edit.ts';

export const statedPrecision: Rule = {
  name: 'stated-precision',
  severity: 'warning',
  summary: 'right, but too few or too many places',
  explanation: `The places of a reading say how finely it was read. With a least count of 0.05 mm a reading is written
8.20 mm, even where the last digit is nought: 8.2 mm would say that hundredths were not looked at, and
8.200 mm that thousandths were. A mean may have one place more.

A result that is worked out may go one place past the first digit of the error that its data carry, and an
error itself has one to three figures. Fewer places there are no mistake.`,
  example: `\`\`\`measurement arm-pin
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 8 mm
coinciding division: 4
observed reading = 8.2 mm
#                  ^^^^^^ warning stated-precision: 8.20 mm
\`\`\`
`,
  fixedExample: `\`\`\`measurement arm-pin
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 8 mm
coinciding division: 4
observed reading = 8.20 mm
\`\`\`
`,
  run(note) {
    return note.verdicts.flatMap(verdict => {
      if (verdict.kind !== 'places') return [];
      const text = note.text.slice(verdict.span.start, verdict.span.end);
      const why =
        verdict.too === 'few'
          ? 'shows fewer places than the least count gives'
          : `shows more places than the ${isRead(verdict.claim) ? 'least count gives' : 'data carry'}`;
      return [
        claimFinding(statedPrecision, note, verdict, {
          message:
            `${claimName(note, verdict.claim)} is right, but ${text} ${why}; ${verdict.shown} is enough`.replace(
              'is enough',
              verdict.too === 'few' ? 'says how finely it was read' : 'is enough',
            ),
          stated: text,
          computed: verdict.shown,
          fixes: [
            {
              title: `Write ${verdict.shown}`,
              edits: [valueEdit(note.text, valueSpan(verdict), verdict.stated.quantity, verdict.shown)],
              sure: true,
            },
          ],
        }),
      ];
    });
  },
};

/** Whether the places of a claim come from the instrument: a reading, or a mean of readings. */
function isRead({ subject }: Claim): boolean {
  return isReading(subject) || (subject.kind === 'term' && /^mean .* reading$/.test(subject.term));
}
