import type { Claim } from '../language/measurement.ts';
import type { Finding } from './finding.ts';
import { claimFinding, claimName, rightText, statedText } from './finding-from.ts';
import { linkFixes } from './link-fixes.ts';
import type { NoteCheck } from './note-check.ts';
import { oncePerNote } from './once-per-note.ts';
import { passedZero } from './passed-zero.ts';
import type { Rule } from './rule.ts';

/** Values that follow from a wrong line, or from a rounded one, with that line as their cause. */
export function followingFindings(
  rule: Rule,
  note: NoteCheck,
  kind: 'carried' | 'rounded-early',
): readonly Finding[] {
  return note.verdicts.flatMap(verdict => {
    if (verdict.kind !== kind) return [];
    const facts = note.facts.block(verdict.block);
    const stated = statedText(note, verdict);
    const right = rightText(facts, verdict.claim, verdict.truth, verdict.stated, stated);
    const name = claimName(note, verdict.claim);
    const names = [verdict.cause, ...verdict.others.map(({ claim }) => claim)].map(claim =>
      claimName(note, claim),
    );
    const cause = names.length === 1 ? names[0]! : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
    const values = names.length === 1 ? 'the wrong value' : 'the wrong values';
    const self = verdict.cause === verdict.claim;
    const message =
      kind === 'carried'
        ? `${name} is stated as ${stated}, but ${right} is right: it follows correctly from ${values} of ${cause}, so mend ${names.length === 1 ? 'that' : 'those'} and this`
        : `${name} is stated as ${stated}, but ${right} is right: it only comes out with ${self ? 'rounded numbers' : `${cause} rounded first`}; carry the exact value and round once at the end`;
    return [
      claimFinding(rule, note, verdict, {
        message,
        stated,
        computed: right,
        cause: verdict.causeSpan,
        related: [
          { span: verdict.causeSpan, message: kind === 'carried' ? 'the root cause' : 'the rounded value' },
          ...verdict.others.map(({ span }) => ({ span, message: 'another cause' })),
        ],
        fixes: claimsOnCircle(note).has(verdict.cause)
          ? linkFixes(note, facts, verdict, right, stated).map(fix => ({ ...fix, sure: false }))
          : linkFixes(note, facts, verdict, right, stated),
      }),
    ];
  });
}

/** Claims whose wrong value may be the right one of a circle, so that what follows from it may be meant as well. */
const claimsOnCircle = oncePerNote(
  (note): ReadonlySet<Claim> =>
    new Set(
      note.verdicts.flatMap(verdict =>
        verdict.kind === 'wrong' && passedZero(note, verdict) !== null ? [verdict.claim] : [],
      ),
    ),
);
