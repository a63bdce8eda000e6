import { namesIn } from '../engine/evaluation.ts';
import { rememberSubject } from './claim.ts';
import { type Draft, replaceFix, report } from './draft.ts';
import type { Claim, Subject } from './measurement.ts';
import { subjectKey } from './names.ts';

/**
 * Reads what is claimed of a list or a column as if it were one value: the result of repeated readings is their mean.
 *
 *     T: 2.63 s, 2.56 s, 2.42 s
 *     T = 2.54 s ± 0.08 s
 *     ^ mean of T
 *
 * It is said, and the list stays what it is. What is worked out from other quantities speaks of no mean.
 */
export function readListsAsMeans(draft: Draft): void {
  for (const [index, claim] of draft.claims.entries()) {
    const { subject } = claim;
    if (subject.kind !== 'own' || subject.row !== null || subject.block !== null || claim.inTable) continue;
    const { name } = subject;
    const record = draft.own.get(name);
    const isColumn = record === undefined && draft.columns.has(name);
    if (!isColumn && record?.kind !== 'list') continue;
    const mean: Subject = { kind: 'statistic', statistic: 'mean', of: subject, from: null };
    if (claim.times !== null || !isOfItself(claim, subjectKey(mean))) continue;
    const many = isColumn ? 'a column of the table' : `a list of ${record?.values.length} values`;
    report(
      draft,
      'not-plain',
      claim.subjectSpan,
      `${name} is ${many}, so one value of it is likely its mean; write mean of ${name}`,
      [replaceFix(`Write mean of ${name}`, claim.subjectSpan, `mean of ${name}`, false)],
    );
    rememberSubject(draft, mean);
    draft.claims[index] = { ...claim, subject: mean, symbol: null, subjectText: `mean of ${name}` };
  }
}

/** Whether a claim's links are values and numbers, or say the mean themselves. */
function isOfItself({ links }: Claim, mean: string): boolean {
  return links.every(
    ({ content }) =>
      content.kind !== 'stated' || [...namesIn(content.stated.expression)].every(name => name === mean),
  );
}
