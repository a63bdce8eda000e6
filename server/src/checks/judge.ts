import { namesIn } from '../engine/evaluation.ts';
import type * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import { isAboutFormula } from '../language/claim.ts';
import type { NoteFacts } from '../language/facts.ts';
import type { Claim, Link, Measurement, Stated } from '../language/measurement.ts';
import { isRootOfLetters } from '../language/shares.ts';
import type { Span } from '../language/syntax.ts';
import { agrees, comparable, isReading, mayBeNear, repeats, type StatedValue } from './agreement.ts';
import {
  causesOf,
  type Followers,
  followers,
  mayRestOn,
  type Substitute,
  substituteKey,
} from './followers.ts';
import { isHundredfold, isHundredth, shareInPercent } from './hundreds.ts';
import { judgeDivisionClaim } from './judge-division.ts';
import { judgeError } from './judge-error.ts';
import { judgeNumbers } from './judge-numbers.ts';
import { judgePlaces } from './judge-places.ts';
import { reportUntraced } from './judge-untraced.ts';
import { linkValue } from './link-value.ts';
import { roundsWithin } from './numbers-put-in.ts';
import { isWithinData, restates } from './restated.ts';
import { isRoundedToTens } from './rounded-to-tens.ts';
import { findSlip } from './slip-search.ts';
import { valueOfOne, valueTimes } from './truth.ts';
import type { NamedSlip, Verdict } from './verdict.ts';

/** The state of one note's judging: what was claimed wrongly or in rounded form so far. */
export interface Judging {
  readonly measurements: readonly Measurement[];
  readonly facts: NoteFacts;
  readonly assumed: ReadonlySet<Claim>;
  readonly follow: Followers;
  readonly wrong: Substitute[];
  readonly rounded: Substitute[];
  /** For claims that are carried forward, the fresh mistake behind them. */
  readonly roots: Map<Claim, Substitute>;
  readonly verdicts: Verdict[];
}

/**
 * Compares every link of every claim of a note with what the records make it, from the top down.
 *
 * A wrong claim is judged once, at its own link; what follows rightly from it is carried forward.
 */
export function judgeNote(
  measurements: readonly Measurement[],
  facts: NoteFacts,
  assumed: ReadonlySet<Claim>,
): readonly Verdict[] {
  const judging: Judging = {
    measurements,
    facts,
    assumed,
    follow: followers(measurements),
    wrong: [],
    rounded: [],
    roots: new Map(),
    verdicts: [],
  };
  for (const [block, measurement] of measurements.entries()) {
    for (const claim of measurement.claims) judgeClaim(judging, block, claim);
    for (const sum of measurement.sums) judgeNumbers(judging, block, sum);
  }
  return judging.verdicts;
}

function judgeClaim(judging: Judging, block: number, claim: Claim): void {
  const facts = judging.facts.block(block);
  const at = { block, claim, link: null, span: claim.links[0]?.span ?? claim.subjectSpan };
  if (judging.assumed.has(claim) && !claim.mended)
    judging.verdicts.push({ ...at, span: claim.span, kind: 'assumed' });
  const truth = valueTimes(facts, claim);
  if (!truth.ok) {
    if (claim.subject.kind === 'division' && judgeDivisionClaim(judging, block, claim)) return;
    if (isRootOfLetters(truth.lack) && isOnlyFormula(claim)) return;
    judging.verdicts.push({ ...at, kind: 'lack', lack: truth.lack });
    return;
  }
  judgeLinks(judging, block, claim, truth.quantity);
}

/** `T = 2 pi sqrt(l / g)` with letters l and g has no value, but nothing is claimed of it; its error may be asked for. */
function isOnlyFormula({ links }: Claim): boolean {
  const only = links[0]?.content;
  return links.length === 1 && only?.kind === 'stated' && !only.stated.isValue;
}

function judgeLinks(judging: Judging, block: number, claim: Claim, truth: Q.Quantity): void {
  const facts = judging.facts.block(block);
  const stated = claim.links.filter(link => link.content.kind === 'stated');
  const last = stated[stated.length - 1];
  const wrongValues: StatedValue[] = [];
  let before: StatedValue | null = null;
  reportUntraced(judging, block, claim);
  for (const link of stated) {
    if (link.content.kind !== 'stated') continue;
    const value = linkValue(judging, block, claim, link, link.content.stated, truth, link === last);
    if (value === null) continue;
    const outcome = judgeLink(judging, {
      block,
      claim,
      link,
      stated: link.content.stated,
      truth,
      value,
      before,
      isLast: link === last,
      wrongValues,
    });
    if (outcome === 'wrong' || outcome === 'carried') wrongValues.push(value);
    if (link === last) keepSubstitute(judging, block, claim, value, outcome, truth);
    before = value;
    if (link.content.stated.error !== null)
      judgeError(judging, facts, block, claim, link, link.content.stated);
  }
}

interface LinkCase {
  readonly block: number;
  readonly claim: Claim;
  readonly link: Link;
  readonly stated: Stated;
  readonly truth: Q.Quantity;
  readonly value: StatedValue;
  readonly before: StatedValue | null;
  readonly isLast: boolean;
  readonly wrongValues: readonly StatedValue[];
}

type LinkOutcome = 'right' | 'rounded' | 'wrong' | 'carried' | 'silent';

function judgeLink(judging: Judging, link: LinkCase): LinkOutcome {
  const { block, claim, truth, value, isLast } = link;
  const facts = judging.facts.block(block);
  const at = { block, claim, link: link.link, span: link.link.span };
  if (agrees(facts, claim.subject, truth, value)) {
    const percent = isLast && link.stated.isValue ? shareInPercent(claim, value) : null;
    if (percent !== null) judging.verdicts.push({ ...at, kind: 'share', percent });
    else if (isLast && link.stated.isValue && !isAboutFormula(claim))
      judgePlaces(judging, facts, at, link.stated, value, truth);
    return S.equals(
      comparable(truth, value.quantity)!.truth.scalar,
      comparable(truth, value.quantity)!.stated.scalar,
    )
      ? 'right'
      : 'rounded';
  }
  if (isRoundedToTens(link.stated, facts, claim.subject, truth, value)) return 'rounded';
  const numbers = !link.stated.isValue && namesIn(link.stated.expression).size === 0;
  const isNear = !isReading(claim.subject) || mayBeNear(facts, claim.subject, truth, value);
  if (numbers && isNear && roundsWithin(facts, claim, link.stated, truth, value.quantity)) return 'right';
  if (isAboutFormula(claim) && !link.stated.isValue && isWithinData(facts, claim, truth, value.quantity))
    return 'right';
  if (link.wrongValues.some(wrong => repeats(wrong, value))) return 'silent';
  if (restates(claim, link.stated, value, link.before, isLast)) return 'rounded';
  const causes = causesOf(judging.follow, block, claim, value, mayRestOn(claim, judging.wrong));
  const [root, ...others] = new Set(causes.map(cause => judging.roots.get(cause.claim) ?? cause));
  if (root !== undefined) {
    judging.roots.set(claim, root);
    judging.verdicts.push({
      ...at,
      kind: 'carried',
      stated: value,
      truth,
      cause: root.claim,
      causeSpan: root.span,
      others,
    });
    return 'carried';
  }
  const early = isLast ? earlyCause(judging, link) : null;
  if (early !== null) {
    judging.verdicts.push({
      ...at,
      kind: 'rounded-early',
      stated: value,
      truth,
      cause: early.claim,
      causeSpan: early.span,
      others: [],
    });
    return 'carried';
  }
  return judgeWrong(judging, link, at);
}

function judgeWrong(
  judging: Judging,
  link: LinkCase,
  at: { block: number; claim: Claim; link: Link; span: Span },
): LinkOutcome {
  const { claim, truth, value, block, stated } = link;
  const facts = judging.facts.block(block);
  const formula = isAboutFormula(claim) ? claim.links[0] : undefined;
  if (formula !== undefined && isHundredth(truth, value)) {
    judging.verdicts.push({ ...at, link: formula, span: formula.span, kind: 'hundred' });
    return 'silent';
  }
  if (isHundredfold(claim, truth, value)) {
    judging.verdicts.push({ ...at, kind: 'hundred' });
    return 'silent';
  }
  if (claim.subject.kind === 'term' && claim.subject.term === 'observed reading' && !stated.isValue) {
    const corrected = facts.term('corrected reading', claim.subject.row);
    if (corrected.ok && agrees(facts, claim.subject, corrected.quantity, value)) {
      judging.verdicts.push({ ...at, kind: 'meant-corrected', stated: value, truth: corrected.quantity });
      return 'carried';
    }
  }
  const slip = findSlip(facts, claim, stated, value, truth, link.before);
  // What went wrong with the zero error is told there, and something else went wrong on top of it.
  const isZero = claim.subject.kind === 'term' && claim.subject.term === 'zero error';
  const isTold = slip?.slip.name === 'closed-division-as-read' && !isZero;
  const onTop = slip === null || isTold ? slipOnWrongValues(judging, link) : null;
  judging.verdicts.push({ ...at, kind: 'wrong', stated: value, truth, part: 'value', slip: onTop ?? slip });
  return 'wrong';
}

/** The slip made with a wrong value from above, where the right values explain nothing. */
function slipOnWrongValues(
  judging: Judging,
  { claim, stated, value, block, before }: LinkCase,
): NamedSlip | null {
  const above = mayRestOn(claim, judging.wrong);
  if (above.length === 0 || judging.follow.isSpent(block)) return null;
  const wrong = judging.follow.concerning(block, above);
  if (wrong.length === 0) return null;
  const facts = judging.follow.under(block, wrong).block(block);
  const carried = valueTimes(facts, claim);
  const slip = carried.ok ? findSlip(facts, claim, stated, value, carried.quantity, before) : null;
  return slip && { ...slip, because: `on top of the wrong value above, ${slip.because}` };
}

/** Right only from rounded numbers: the link before with its numbers, or a rounded claim above. */
function earlyCause(judging: Judging, link: LinkCase): { claim: Claim; span: Span } | null {
  const { claim, value, before, block } = link;
  if (before !== null && before.place === null && !isReading(claim.subject)) {
    const facts = judging.facts.block(block);
    if (agrees(facts, claim.subject, before.quantity, value)) {
      const [above] = causesOf(judging.follow, block, claim, value, judging.rounded);
      return above ?? { claim, span: claim.links[Math.max(0, claim.links.indexOf(link.link) - 1)]!.span };
    }
  }
  return (
    causesOf(judging.follow, block, claim, value, judging.rounded)[0] ??
    causesOf(judging.follow, block, claim, value, [
      ...mayRestOn(claim, judging.wrong),
      ...judging.rounded,
    ])[0] ??
    null
  );
}

function keepSubstitute(
  judging: Judging,
  block: number,
  claim: Claim,
  value: StatedValue,
  outcome: LinkOutcome,
  truth: Q.Quantity,
): void {
  // A chain that went wrong and repeats it still hands its last value on.
  if (outcome === 'right') return;
  const key = substituteKey(judging.facts, block, claim.subject);
  const isRoundedCount = outcome === 'rounded' && claim.times !== null;
  const single = isRoundedCount ? null : valueOfOne(judging.facts.block(block), claim, value.quantity);
  if (key === null || single === null) return;
  const quantity = comparable(truth, single)?.stated ?? single;
  const link = claim.links[claim.links.length - 1]!;
  const substitute: Substitute = { key, value: quantity, claim, span: link.span };
  if (outcome === 'rounded') judging.rounded.push(substitute);
  else judging.wrong.push(substitute);
}
