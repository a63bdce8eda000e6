import type { Claim } from '../../language/measurement.ts';
import type { Fix } from '../../language/problem.ts';
import { asRecord, scaleOf } from '../as-record.ts';
import { claimFinding, claimName } from '../finding-from.ts';
import type { NoteCheck } from '../note-check.ts';
import type { Rule } from '../rule.ts';

export const takenAsGiven: Rule = {
  name: 'taken-as-given',
  severity: 'warning',
  summary: 'a claim that nothing determines, read as a record',
  explanation: `A colon records, an equals sign claims. Where nothing else in the block settles what is claimed, there is
nothing to check it against, so it is read as given, and said, and the work goes on. The fix writes the
colon.

This is done for a pitch, a least count, a zero error or correction, a line about the scales, and a symbol
that another line needs. Readings, means and errors are never taken as given: they are what a block is
there to check.`,
  example: `\`\`\`measurement crank-arm
instrument: screw gauge
pitch = 0.5 mm
#^^^^^^^^^^^^^ warning taken-as-given: a colon says so
circular scale: 50 divisions
least count = pitch / 50 = 0.01 mm
\`\`\`
`,
  fixedExample: `\`\`\`measurement crank-arm
instrument: screw gauge
pitch: 0.5 mm
circular scale: 50 divisions
least count = pitch / 50 = 0.01 mm
\`\`\`
`,
  run(note) {
    return note.verdicts.flatMap(verdict =>
      verdict.kind === 'assumed'
        ? [
            claimFinding(takenAsGiven, note, verdict, {
              message: `nothing in this block determines ${claimName(note, verdict.claim)}, so this is read as given; ${
                verdict.claim.subject.kind === 'division'
                  ? `it belongs behind ${scaleOf(verdict.claim.subject.division)}:`
                  : 'a colon says so'
              }`,
              fixes: [recordFix(note, verdict.claim)],
            }),
          ]
        : [],
    );
  },
};

/** Where links of the claim exclude each other, which of them is given is for a person to say. */
function recordFix(note: NoteCheck, claim: Claim): Fix {
  const fix = asRecord(note.text, claim);
  const isDoubtful = note.verdicts.some(verdict => verdict.claim === claim && verdict.kind === 'wrong');
  return isDoubtful ? { ...fix, sure: false } : fix;
}
