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
  const because = verdict.slip === null ? '' : `: ${verdict.slip.because}`;
  const next =
    verdict.slip?.next === undefined || verdict.slip.next === null
      ? ''
      : ` (or: ${verdict.slip.next.summary})`;
  return claimFinding(rule, note, verdict, {
    message: `${instead ?? said}${because}${next}`,
    stated,
    computed: right,
    slip: verdict.slip?.slip.name ?? null,
    fixes: isError ? errorFixes(note, verdict, right) : linkFixes(facts, verdict, right, typed),
  });
}
