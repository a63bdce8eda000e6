import type { Step } from '../engine/derivation.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { RowNumber } from '../language/measurement.ts';
import type { ComputedTerm, ObservableTerm } from '../language/term-names.ts';
import { expressionText } from '../render/expression-text.ts';
import { divisionOf, nameOf, type Setting, termSubject, termValue } from './setting.ts';
import { joined } from './step-parts.ts';
import { vernierRule } from './vernier-rule.ts';
import { mannerOf, workedClaim } from './worked-claim.ts';
import { countTimes, exactValue } from './written-value.ts';

/**
 * Which mark and which line a known reading shows: `coinciding division = (observed reading - MSR) / LC`.
 *
 * Only where the reading is given and nothing was observed.
 */
export function deriveObservable(
  setting: Setting,
  term: ComputedTerm | ObservableTerm,
  row: RowNumber,
): readonly Step[] | null {
  if (row !== null) return null;
  switch (term) {
    case 'main scale reading':
    case 'linear scale reading':
      return [markBefore(setting, term)];
    case 'coinciding division':
    case 'circular scale reading':
      return [divisionShown(setting, term)];
    default:
      return null;
  }
}

/** The last mark at or before a reading. */
function markBefore(setting: Setting, term: 'main scale reading' | 'linear scale reading'): Step {
  const { facts } = setting;
  const subject = termSubject(term);
  const manner = mannerOf(setting, subject);
  const [mark, reading] = [termValue(facts, term), termValue(facts, 'observed reading')];
  const one = divisionOf(facts, facts.scales().hasCircular ? 'linear scale division' : 'main scale division');
  const count = mark === null || one === null ? null : S.divide(mark.scalar, one.scalar);
  if (reading === null || one === null || count === null) return workedClaim(setting, subject, []);
  const reason = `The last mark at or before ${expressionText(exactValue(reading, manner))}`;
  return workedClaim(setting, subject, [countTimes(count, one, manner)], reason);
}

/** How many divisions of the fine scale lie between that mark and the reading. */
function divisionShown(setting: Setting, term: 'coinciding division' | 'circular scale reading'): Step {
  const { facts } = setting;
  const subject = termSubject(term);
  const coarse = facts.scales().hasCircular ? 'linear scale reading' : 'main scale reading';
  const [count, mark, reading, least] = [
    termValue(facts, term),
    termValue(facts, coarse),
    termValue(facts, 'observed reading'),
    termValue(facts, 'least count'),
  ];
  if (count === null || mark === null || reading === null || least === null)
    return workedClaim(setting, subject, []);
  const past = S.subtract(reading.scalar, mark.scalar);
  const holds =
    S.equals(S.multiply(count.scalar, least.scalar), past) &&
    (term === 'circular scale reading' || vernierRule(facts) === 'up');
  if (!holds) return workedClaim(setting, subject, [], 'The division that stands in line at this reading');
  const manner = mannerOf(setting, termSubject('observed reading'));
  const real = S.realValue(past);
  const isNothing = real !== null && R.isZero(real);
  const names = joined(
    'divide',
    joined('subtract', nameOf(setting, 'observed reading'), nameOf(setting, coarse)),
    nameOf(setting, 'least count'),
  );
  const numbers = joined(
    'divide',
    joined('subtract', exactValue(reading, manner), exactValue(mark, manner)),
    exactValue(least, manner),
  );
  return workedClaim(setting, subject, isNothing ? [] : [names, numbers]);
}
