import * as S from '../engine/scalar.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { agrees, isError } from './agreement.ts';
import { divisionsInstead } from './divisions-instead.ts';
import type { Finding } from './finding.ts';
import { claimFinding, claimName, rightText, statedText, termText } from './finding-from.ts';
import { errorFixes, linkFixes } from './link-fixes.ts';
import type { NoteCheck } from './note-check.ts';
import { passedZero } from './passed-zero.ts';
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
  const about = verdict.part === 'error' ? { ...verdict.claim, subject: errorOf(verdict) } : verdict.claim;
  const instead = verdict.part === 'error' ? null : divisionsInstead(facts, verdict);
  const right = instead?.right ?? rightText(facts, about, verdict.truth, verdict.stated, typed);
  const name = claimName(note, verdict.claim);
  const isError = verdict.part === 'error';
  const isValue = verdict.link?.content.kind === 'stated' && verdict.link.content.stated.isValue;
  const stated = isError ? rightText(facts, about, verdict.stated.quantity, verdict.stated, typed) : typed;
  const what = isError ? `the error of ${name.replace(/^the /, '')}` : name;
  const passed = passedZero(note, verdict);
  const said =
    passed !== null
      ? `${what} is stated as ${stated}, but its formula gives ${right}`
      : isValue || isError
        ? `${what} is stated as ${stated}, but ${right} is right`
        : `${stated} does not give ${what}, which is ${right}`;
  // A half that went the other way looks like many a slip, and is none.
  const half = isError ? null : halfText(facts, verdict);
  const slip = half === null ? verdict.slip : null;
  const why = half ?? passed?.because ?? slip?.because ?? noughtText(verdict);
  const because = why === null ? '' : `: ${why}`;
  const next = slip?.next === undefined || slip.next === null ? '' : ` (or: ${slip.next.summary})`;
  return claimFinding(rule, note, verdict, {
    message: `${instead?.said ?? said}${because}${next}`,
    stated,
    computed: right,
    slip: slip?.slip.name ?? null,
    ...(isError ? { term: termText(errorOf(verdict)) } : {}),
    fixes: isError
      ? errorFixes(note, verdict, right)
      : passed === null
        ? linkFixes(note, facts, verdict, right, typed)
        : [
            ...passed.fixes,
            ...linkFixes(note, facts, verdict, right, typed).map(fix => ({ ...fix, sure: false })),
          ],
  });
}

/** What stands behind ±: the absolute error of a value, or its percentage. */
function errorOf({ claim, stated }: Extract<Verdict, { readonly kind: 'wrong' }>): Subject {
  const statistic = stated.quantity.unit?.symbol === '%' ? 'percentage error' : 'absolute error';
  return { kind: 'statistic', statistic, of: claim.subject, from: null };
}

/** Why an error is not stated as nought; null where it is not, or another reason is known. */
function noughtText({ claim, part, stated }: Extract<Verdict, { readonly kind: 'wrong' }>): string | null {
  const states = part === 'error' || isError(claim.subject);
  return states && S.isZero(stated.quantity.scalar)
    ? 'nought has no significant figure, so no error is rounded to it'
    : null;
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
