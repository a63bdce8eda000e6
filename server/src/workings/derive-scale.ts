import type { Derivation, Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import type * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import type { Division } from '../engine/scales.ts';
import type { Unit } from '../engine/unit.ts';
import { DIVISION_OF, DIVISION_TERM } from '../language/facts-scales.ts';
import type { Subject } from '../language/measurement.ts';
import { expressionText } from '../render/expression-text.ts';
import { deriveLeastCount } from './derive-least-count.ts';
import { type DivisionSource, divisionSource } from './division-source.ts';
import { divisionOf, nameOf, type Setting, settingOf, termValue } from './setting.ts';
import { joined } from './step-parts.ts';
import { mannerOf, titleOf, workedClaim } from './worked-claim.ts';
import type { Deriving } from './working.ts';
import { decimalPlaces, exactValue, plainNumber, share } from './written-value.ts';

/**
 * How a division, the pitch or the least count follows from the scale records: `1 MSD = 1 cm / 20 = 0.05 cm`.
 *
 * Null where the block records it as it is, or does not determine it.
 */
export function deriveScale(deriving: Deriving, subject: Subject): Derivation | null {
  const { facts } = deriving;
  const isHere = (subject.kind === 'term' || subject.kind === 'division') && subject.block === null;
  if (!isHere) return null;
  const answer = facts.value(subject);
  if (!answer.ok || answer.source !== 'computed') return null;
  const setting = settingOf(deriving);
  const steps = stepsFor(setting, subject);
  return steps === null ? null : { title: titleOf(facts, subject), steps };
}

function stepsFor(setting: Setting, subject: Subject): readonly Step[] | null {
  if (subject.kind === 'division') {
    const division = DIVISION_OF[subject.division];
    const source = divisionSource(setting.facts, division);
    if (source === null) return [workedClaim(setting, subject, [])];
    if (source.kind === 'length' && S.equals(source.count, S.UNITY)) return null;
    if (source.kind === 'given' && source.term === 'pitch') return null;
    return [fromSource(setting, subject, source)];
  }
  if (subject.kind !== 'term') return null;
  if (subject.term === 'least count') return deriveLeastCount(setting);
  const source = divisionSource(setting.facts, 'rotation');
  return [source === null ? workedClaim(setting, subject, []) : fromSource(setting, subject, source)];
}

/** The formula of a division by what settles it, the numbers put in, the value. */
function fromSource(setting: Setting, subject: Subject, source: DivisionSource): Step {
  const manner = mannerOf(setting, subject);
  switch (source.kind) {
    case 'length': {
      const { count, length } = source;
      const isOne = S.equals(count, S.UNITY);
      const put = (unit: Unit | null): Expression => {
        const value = exactValue(length, { ...manner, unit });
        return isOne ? value : joined('divide', value, plainNumber(count));
      };
      // A length recorded in another unit than the result is first brought into it.
      const isOther =
        length.unit !== null && manner.unit !== null && length.unit.symbol !== manner.unit.symbol;
      const links =
        isOther && !manner.sexagesimal ? [put(length.unit), put(manner.unit)] : [put(length.unit)];
      return workedClaim(setting, subject, links, subject.kind === 'term' ? screwMoves(source) : null);
    }
    case 'others':
      return fromOthers(setting, subject, source);
    case 'marks': {
      const atLeast = Math.max(
        decimalPlaces(source.low, manner.unit),
        decimalPlaces(source.high, manner.unit),
      );
      const mark = (value: Q.Quantity): Expression => exactValue(value, { ...manner, atLeast });
      const difference = joined('subtract', mark(source.high), mark(source.low));
      return workedClaim(
        setting,
        subject,
        [difference],
        'The zero stands between two neighbouring marks, one division apart',
      );
    }
    case 'given':
      return workedClaim(
        setting,
        subject,
        [nameOf(setting, 'least count')],
        'The least count of a screw is one division of its circular scale',
      );
  }
}

/** `4 rotations move the screw by 2 mm`. */
function screwMoves({ count, length }: Extract<DivisionSource, { readonly kind: 'length' }>): string {
  const far = expressionText(exactValue(length, { unit: length.unit, sexagesimal: false }));
  return S.equals(count, S.UNITY)
    ? `One rotation moves the screw by ${far}`
    : `${S.scalarText(count)} rotations move the screw by ${far}`;
}

function fromOthers(
  setting: Setting,
  subject: Subject,
  source: Extract<DivisionSource, { readonly kind: 'others' }>,
): Step {
  const { count, times, isUsual } = source;
  const one = otherOf(setting, source.other);
  const manner = mannerOf(setting, subject);
  const put = (value: Expression): Expression => {
    if (S.equals(times, S.UNITY))
      return S.equals(count, S.UNITY) ? value : joined('divide', value, plainNumber(count));
    return joined('multiply', share(times, count), value);
  };
  const links = [put(one.name), ...(one.value === null ? [] : [put(exactValue(one.value, manner))])];
  const reason = isUsual
    ? 'Where nothing else is said, one rotation passes one division of the linear scale'
    : null;
  return workedClaim(setting, subject, links, reason);
}

/** A division in a formula: the least count where it is given for the circular division, the pitch for a rotation. */
function otherOf(
  setting: Setting,
  division: Division,
): { readonly name: Expression; readonly value: Q.Quantity | null } {
  const { facts } = setting;
  if (division === 'circular' && facts.scales().givenUsed.has('least count'))
    return { name: nameOf(setting, 'least count'), value: termValue(facts, 'least count') };
  if (division === 'main' || division === 'vernier')
    return { name: nameOf(setting, division), value: divisionOf(facts, DIVISION_TERM[division]) };
  if (division === 'rotation') return { name: nameOf(setting, 'pitch'), value: termValue(facts, 'pitch') };
  return { name: nameOf(setting, division), value: divisionOf(facts, DIVISION_TERM[division]) };
}
