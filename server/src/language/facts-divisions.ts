import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { type Division, divisionRatio, divisionValue, leastStep, solveScales } from '../engine/scales.ts';
import { type Answer, computed, lacking, missing, REPORTED } from './answer.ts';
import { whyNotBare } from './bare-scale.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { DIVISION_OF, DIVISION_TERM } from './facts-scales.ts';
import type { DivisionTerm } from './term-names.ts';

/** The scalar of a division with what wrong claims put in its place; null while it is open. */
export function division(facts: Facts, which: Division): S.Scalar | null {
  const answer = facts.value({ kind: 'division', division: DIVISION_TERM[which], block: null });
  return answer.ok ? answer.quantity.scalar : null;
}

/** V/S or another ratio of divisions, with what wrong claims put in their place. */
export function ratio(facts: Facts, finer: Division, coarser: Division): S.Scalar | null {
  const a = division(facts, finer);
  const b = division(facts, coarser);
  if (a !== null && b !== null) return S.divide(a, b);
  return divisionRatio(facts.scales().scales, finer, coarser);
}

/** The value of one division of a scale. */
export function divisionAnswer(facts: Facts, term: DivisionTerm): Answer {
  const { scales, unit, dimension, troubles, hasCircular } = facts.scales();
  if (term === 'rotation' || term === 'circular scale division') {
    // A wrong pitch carries on into the circular division.
    const wrong = wrongPitch(facts);
    if (wrong !== null && term === 'rotation') return computed(wrong);
    const perTurn = wrong === null ? null : divisionRatio(scales, 'circular', 'rotation');
    if (wrong !== null && perTurn !== null)
      return computed({ ...wrong, scalar: S.multiply(wrong.scalar, perTurn) });
  }
  const carried = term === 'vernier scale division' ? onWrongBase(facts) : null;
  if (carried !== null) return computed(carried);
  const value = divisionValue(scales, DIVISION_OF[term]);
  if (value !== null && dimension !== null) return computed({ scalar: value, dimension, unit });
  if (troubles.length > 0) return REPORTED;
  const hint =
    term === 'vernier scale division' && hasCircular
      ? 'record the vernier scale (`vernier scale: … VSD = … CSD`)'
      : DIVISION_HINT[term];
  return missing(`nothing in this block determines the ${term}: ${hint}`);
}

/** A wrong pitch that is followed up, by its name or as the length of one rotation. */
function wrongPitch(facts: Facts): Q.Quantity | null {
  return (
    facts.override({ kind: 'term', term: 'pitch', row: null, block: null }) ??
    facts.override({ kind: 'division', division: 'rotation', block: null })
  );
}

/** A vernier that is recorded in divisions of another scale, with a wrong one of these; null where nothing is followed up. */
function onWrongBase(facts: Facts): Q.Quantity | null {
  if (facts.note.overrides.size === 0) return null;
  const { vernierBase, vernierEquations } = facts.scales();
  const base = vernierBase === 'circular' ? 'circular scale division' : 'main scale division';
  const isWrong =
    facts.override({ kind: 'division', division: base, block: null }) !== null ||
    (vernierBase === 'circular' && wrongPitch(facts) !== null);
  const share = isWrong ? divisionRatio(solveScales(vernierEquations), 'vernier', vernierBase) : null;
  const one = share === null ? null : facts.value({ kind: 'division', division: base, block: null });
  return one?.ok && share !== null
    ? { ...one.quantity, scalar: S.multiply(one.quantity.scalar, share) }
    : null;
}

const DIVISION_HINT: Readonly<Record<DivisionTerm, string>> = {
  'main scale division': 'record the main scale (`main scale: 1 cm = … MSD`)',
  'vernier scale division':
    'record the main scale (`main scale: 1 cm = … MSD`) and the vernier scale (`vernier scale: … VSD = … MSD`)',
  'linear scale division': 'record the linear scale (`linear scale: 1 mm = … LSD`)',
  'circular scale division':
    'record the screw (`screw: … rotations = …`) and the circular scale (`circular scale: … divisions`)',
  rotation: 'record the screw (`screw: … rotations = …`)',
};

/** How far the screw moves in one rotation: from the screw's record, else as given, else least count × N. */
export function pitch(facts: Facts): Answer {
  const value = divisionAnswer(facts, 'rotation');
  const given = facts.measurement.givens.get('pitch');
  if (value.ok)
    return given !== undefined && facts.scales().givenUsed.has('pitch')
      ? { ...value, source: 'given', span: given.span }
      : value;
  if (given !== undefined) {
    const answer = evaluateIn(facts, given.stated.expression);
    return answer.ok ? { ...answer, source: 'given', span: given.span } : answer;
  }
  if (!value.ok && value.lack.kind === 'reported') return value;
  return missing(
    'nothing in this block determines the pitch: record it (`pitch: …`) or the screw (`screw: … rotations = …`)',
  );
}

/**
 * The least count: the smallest step that the scales can tell apart.
 *
 * By the vernier the smallest non-zero distance of b·V from a multiple of S; by a screw pitch / N; by a bare scale its
 * division; as given where the scales leave it open.
 */
export function leastCount(facts: Facts): Answer {
  const found = scaleLeastCount(facts);
  const given = facts.measurement.givens.get('least count');
  if (found !== null) {
    const isGiven = found.ok && given !== undefined && facts.scales().givenUsed.has('least count');
    return isGiven ? { ...found, source: 'given', span: given.span } : found;
  }
  if (given !== undefined) {
    const answer = evaluateIn(facts, given.stated.expression);
    return answer.ok ? { ...answer, source: 'given', span: given.span } : answer;
  }
  const bare = bareScaleStep(facts);
  if (bare !== null) return bare;
  const { hasVernier, hasCircular, troubles } = facts.scales();
  if (troubles.length > 0) return REPORTED;
  if (hasCircular && !hasVernier) {
    return missing(
      'nothing in this block determines the least count: record the pitch (`pitch: …`) and the circular scale (`circular scale: … divisions`), or the least count (`least count: …`)',
    );
  }
  return missing(
    'nothing in this block determines the least count: record the main scale (`main scale: 1 cm = … MSD`) and the vernier scale (`vernier scale: … VSD = … MSD`), or the least count (`least count: …`)',
  );
}

/** The least count as the scales alone make it; null where they leave it open. */
export function scaleLeastCount(facts: Facts): Answer | null {
  const { hasVernier, hasCircular, vernierBase, vernierLines, unit, dimension } = facts.scales();
  const answer = (value: S.Scalar | null): Answer | null =>
    value !== null && dimension !== null ? computed({ scalar: value, dimension, unit }) : null;
  if (hasVernier) {
    const base = division(facts, vernierBase);
    const share = ratio(facts, 'vernier', vernierBase);
    if (base !== null && share !== null) {
      const step = leastStep(share, vernierLines) ?? letteredStep(share, vernierLines);
      if (step !== null) return answer(S.multiply(base, step));
      if (S.realValue(share) !== null)
        return lacking({
          kind: 'impossible',
          message:
            'a vernier division that is a whole number of main divisions tells no smaller step apart, so these scales have no vernier least count',
          span: facts.scales().spans[0] ?? null,
        });
    }
    return null;
  }
  return hasCircular ? answer(division(facts, 'circular')) : null;
}

/** A bare scale tells its own divisions apart; a given least count says that there is more to it. */
function bareScaleStep(facts: Facts): Answer | null {
  const { hasVernier, hasCircular, unit, dimension } = facts.scales();
  const value = hasVernier || hasCircular ? null : (division(facts, 'main') ?? division(facts, 'linear'));
  if (value === null || dimension === null) return null;
  return whyNotBare(facts, 'least count') ?? computed({ scalar: value, dimension, unit });
}

/** N lettered lines over qN ± 1 divisions step by one division / N: nothing else divides both. */
function letteredStep(share: S.Scalar, lines: S.Scalar | null): S.Scalar | null {
  return lines !== null && wholeOffset(share, lines) !== null ? S.divide(S.UNITY, lines) : null;
}

/** For N lines over qN + r divisions with r = ±1: q and r; null for other lettered verniers. */
export function wholeOffset(
  share: S.Scalar,
  lines: S.Scalar,
): { readonly whole: number; readonly offset: 1 | -1 } | null {
  const span = S.multiply(share, lines);
  for (let whole = 0; whole <= 4; whole++) {
    const rest = S.realValue(S.subtract(span, S.multiply(S.real(R.rational(whole)), lines)));
    if (rest !== null && R.equals(rest, R.ONE)) return { whole, offset: 1 };
    if (rest !== null && R.equals(rest, R.rational(-1))) return { whole, offset: -1 };
  }
  return null;
}

/** N: the number of divisions of the fine scale, on the vernier or around the drum. */
export function fineCount(facts: Facts): Answer {
  const { hasVernier, hasCircular, vernierLines, scales } = facts.scales();
  if (hasVernier && vernierLines !== null) return computed(Q.plain(vernierLines));
  if (hasCircular) {
    const turns = divisionRatio(scales, 'rotation', 'circular');
    if (turns !== null) return computed(Q.plain(turns));
  }
  return missing(
    'nothing in this block says how many divisions the fine scale has: record them (`circular scale: … divisions` or `vernier scale: … VSD = … MSD`)',
  );
}
