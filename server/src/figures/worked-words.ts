import { rightValue } from '../checks/right-value.ts';
import { isPlain } from '../engine/dimension.ts';
import { inUnit, type Quantity } from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Facts } from '../language/facts.ts';
import { division } from '../language/facts-divisions.ts';
import { readingsOf } from '../language/facts-position.ts';
import type { RowNumber } from '../language/measurement.ts';
import type { ComputedTerm, ObservableTerm } from '../language/term-names.ts';
import type { WorkedWords } from '../render/figures/setting.ts';
import { shownValue } from '../render/shown-value.ts';
import { writtenValue } from '../workings/put-in.ts';
import { termSubject, termValue } from '../workings/setting.ts';
import { vernierRule } from '../workings/vernier-rule.ts';
import { recordedPlaces } from '../workings/worked-claim.ts';

/** What a worked figure says beside the scales, each value as a right block writes it; null without a reading. */
export function workedWords(facts: Facts, row: RowNumber): WorkedWords | null {
  const observed = shown(facts, 'observed reading', row);
  if (observed === null) return null;
  const { hasCircular, hasVernier } = facts.scales();
  const mark = markText(facts, hasCircular ? 'linear' : 'main', row);
  const turns = hasCircular && mark === null ? shown(facts, 'full rotations', row) : null;
  const zeroError = shown(facts, 'zero error', null);
  const corrected = shown(facts, 'corrected reading', row);
  return {
    coarse:
      mark !== null
        ? `${hasCircular ? 'LSR' : 'MSR'} = ${mark}`
        : turns === null
          ? ''
          : `${turns} full ${turns === '1' ? 'rotation' : 'rotations'}`,
    fine: hasCircular ? drumShare(facts, row) : vernierShare(facts, row),
    finest: hasCircular && hasVernier ? vernierShare(facts, row) : null,
    observed: `observed reading = ${mark === null ? (byMark(facts, row) ?? '') : ''}${observed}`,
    zeroError: zeroError === null ? null : `zero error = ${zeroError}${ofChecks(facts)}`,
    corrected: zeroError === null || corrected === null ? null : `corrected reading = ${corrected}`,
  };
}

/** What a closed position shows: the zero error, or of several checks what this one reads. */
export function closedWords(facts: Facts, value: Quantity, checks: number): string | null {
  if (checks === 1) {
    const zeroError = shown(facts, 'zero error', null);
    return zeroError === null ? null : `zero error = ${zeroError}`;
  }
  const { unit, dimension } = facts.scales();
  const least = facts.term('least count');
  const step = least.ok && unit !== null ? inUnit(least.quantity, unit) : null;
  const real = step === null ? null : S.realValue(step);
  const atLeast = (real === null ? null : R.terminatingPlaces(real)) ?? 0;
  const isAngle = dimension?.angle === 1;
  return `reads ${shownValue(value, { unit, signed: true, sexagesimal: isAngle, atLeast })}`;
}

/** Several zero checks give one zero error together. */
function ofChecks({ measurement }: Facts): string {
  const { length } = measurement.closed;
  return length > 1 ? `, the mean of ${length} checks` : '';
}

function shown(facts: Facts, term: ComputedTerm | ObservableTerm, row: RowNumber): string | null {
  return writtenValue(facts, termSubject(term, row))?.text ?? null;
}

/** `21 mm - 8 × 0.9 mm = `: from the mark in line back to the vernier's zero; null where that mark is not recorded. */
function byMark(facts: Facts, row: RowNumber): string | null {
  const mark = shown(facts, 'coinciding main mark', row);
  const line = termValue(facts, 'coinciding division', row);
  const count = line === null ? null : S.realValue(line.scalar);
  const one = rightValue(
    facts,
    { kind: 'division', division: 'vernier scale division', block: null },
    termValue(facts, 'observed reading', row)?.unit,
  );
  if (mark === null || count === null || one === null) return null;
  return `${mark} ${facts.measurement.runsBackward ? '+' : '−'} ${plain(count)} × ${one.text} = `;
}

/** The mark as a length, with the noughts that were recorded, also where its divisions were counted. */
function markText(facts: Facts, scale: 'linear' | 'main', row: RowNumber): string | null {
  const term = `${scale} scale reading` as const;
  const value = termValue(facts, term, row);
  const one = value === null || !isPlain(value.dimension) ? null : division(facts, scale);
  const { dimension, unit } = facts.scales();
  if (value !== null && value.dimension.angle === 0 && !isPlain(value.dimension))
    return shownValue(value, { atLeast: recordedPlaces(facts, term, row, value.unit) });
  if (value === null || one === null || dimension === null) return shown(facts, term, row);
  return shownValue({ scalar: S.multiply(value.scalar, one), dimension, unit });
}

/** `17 × 0.002 cm = 0.034 cm`; only its value on a vernier whose line n does not stand for n least counts. */
function vernierShare(facts: Facts, row: RowNumber): string {
  const share = shown(facts, 'vernier scale reading', row);
  if (share === null) return '';
  const line = termValue(facts, 'coinciding division', row);
  const count = line === null ? null : S.realValue(line.scalar);
  const least = rightValue(
    facts,
    termSubject('least count'),
    termValue(facts, 'observed reading', row)?.unit,
  );
  const value = termValue(facts, 'vernier scale reading', row);
  // An angle in minutes and seconds, as the share itself is written.
  const isAngle = least?.quantity.dimension.angle === 1;
  const leastText = (isAngle ? shown(facts, 'least count', null) : null) ?? least?.text;
  const lines = facts.scales().vernierLines;
  const size = least === null ? null : S.realValue(least.quantity.scalar);
  const real = value === null ? null : S.realValue(value.scalar);
  if (count === null || least === null || size === null || real === null) return share;
  const steps = R.divide(real, size);
  if (steps === null) return share;
  const rule = vernierRule(facts);
  if (rule === 'up' && R.equals(steps, count)) return `${plain(count)} × ${leastText} = ${share}`;
  const all = lines === null ? null : S.realValue(lines);
  if (rule === 'down' && all !== null && R.equals(steps, R.subtract(all, count)))
    return `(${plain(all)} − ${plain(count)}) × ${leastText} = ${share}`;
  return share;
}

/** `34 × 0.01 mm = 0.34 mm` */
function drumShare(facts: Facts, row: RowNumber): string {
  if (readingsOf(facts, row).has('final circular reading')) return '';
  const turned = facts.value({ kind: 'term', term: 'circular scale reading', row, block: null });
  const count = turned.ok ? S.realValue(turned.quantity.scalar) : null;
  const one = rightValue(
    facts,
    { kind: 'division', division: 'circular scale division', block: null },
    termValue(facts, 'observed reading', row)?.unit,
  );
  if (count === null || one === null) return '';
  const value = { ...one.quantity, scalar: S.multiply(one.quantity.scalar, S.real(count)) };
  const atLeast = one.text.split('.')[1]?.match(/^\d+/)?.[0].length ?? 0;
  return `${plain(count)} × ${one.text} = ${shownValue(value, { unit: one.unit, atLeast })}`;
}

function plain(count: R.Rational): string {
  return R.terminatingPlaces(count) === 0 ? R.toFractionText(count) : String(R.toNumber(count));
}
