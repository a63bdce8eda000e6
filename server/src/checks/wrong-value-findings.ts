import type { Facts } from '../language/facts.ts';
import { agrees } from './agreement.ts';
import { divisionsInstead } from './divisions-instead.ts';
import type { Finding } from './finding.ts';
import { claimFinding, claimName, rightText, statedText } from './finding-from.ts';
import { errorFixes, linkFixes } from './link-fixes.ts';
import type { NoteCheck } from './note-check.ts';
import type { Rule } from './rule.ts';
import type { Verdict } from './verdict.ts';

/** Wrong links: what is stated, what is right, and the slip that explains it. */
export function wrongValueFindings(rule: Rule, note: NoteCheck): readonly Finding[] {
  return note.verdicts.flatMap(verdict =>
    verdict.kind === 'wrong' ? [wrongValue(rule, note, verdict)] : [],
  );
}

function wrongValue(
  rule: Rule,
  note: NoteCheck,
  verdict: Extract<Verdict, { readonly kind: 'wrong' }>,
): Finding {
  const facts = note.facts.block(verdict.block);
  const typed = statedText(note, verdict);
  const right = rightText(facts, verdict.claim, verdict.truth, verdict.stated, typed);
  const name = claimName(note, verdict.claim);
  const isError = verdict.part === 'error';
  const isValue = verdict.link?.content.kind === 'stated' && verdict.link.content.stated.isValue;
  const stated = isError
    ? rightText(facts, verdict.claim, verdict.stated.quantity, verdict.stated, typed)
    : typed;
  const what = isError ? `the error of ${name.replace(/^the /, '')}` : name;
  const said =
    isValue || isError
      ? `${what} is stated as ${stated}, but ${right} is right`
      : `${stated} does not give ${what}, which is ${right}`;
  const instead = isError ? null : divisionsInstead(facts, verdict);
  // A half that went the other way looks like many a slip, and is none.
  const half = isError ? null : halfText(facts, verdict);
  const slip = half === null ? verdict.slip : null;
  const why = half ?? slip?.because ?? null;
  const because = why === null ? '' : `: ${why}`;
  const next = slip?.next === undefined || slip.next === null ? '' : ` (or: ${slip.next.summary})`;
  return claimFinding(rule, note, verdict, {
    message: `${instead ?? said}${because}${next}`,
    stated,
    computed: right,
    slip: slip?.slip.name ?? null,
    fixes: isError ? errorFixes(note, verdict, right) : linkFixes(facts, verdict, right, typed),
  });
}

/** Why a half that went the other way is wrong; null where the value is wrong whichever way a half goes. */
function halfText(
  facts: Facts,
  { claim, truth, stated }: Extract<Verdict, { readonly kind: 'wrong' }>,
): string | null {
  const { measurement } = facts;
  const eitherWay: Facts = { ...facts, measurement: { ...measurement, halves: 'either' } };
  switch (measurement.halves) {
    case 'either':
      return null;
    case 'to-even':
      return agrees(eitherWay, claim.subject, truth, stated) ? 'a half goes to the even digit here' : null;
    case 'away-from-zero':
      return agrees(eitherWay, claim.subject, truth, stated) ? 'a half goes away from zero here' : null;
  }
}
