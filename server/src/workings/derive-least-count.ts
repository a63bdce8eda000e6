import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { fineCount } from '../language/facts-divisions.ts';
import { expressionText } from '../render/expression-text.ts';
import { divisionSource } from './division-source.ts';
import { divisionOf, nameOf, type Setting, termSubject, termValue } from './setting.ts';
import { joined } from './step-parts.ts';
import { nearestMultiple, type VernierDivisions, vernierDivisions } from './vernier-rule.ts';
import { mannerOf, workedClaim } from './worked-claim.ts';
import { exactValue, plainNumber } from './written-value.ts';

const SUBJECT = termSubject('least count');

/**
 * The least count in one line: `S - V` where that is the smallest step, `2S - V` or `3V - 2S` where it is not, `S / N`
 * where a vernier division has no decimal, `pitch / N` for a screw, one division of a bare scale.
 */
export function deriveLeastCount(setting: Setting): readonly Step[] | null {
  const { facts } = setting;
  const vernier = vernierDivisions(facts);
  if (vernier !== null) return [byVernier(setting, vernier)];
  const { hasVernier, hasCircular } = facts.scales();
  if (hasVernier) return [workedClaim(setting, SUBJECT, [])];
  return [hasCircular ? byScrew(setting) : byBareScale(setting)];
}

function byVernier(setting: Setting, vernier: VernierDivisions): Step {
  const nearest = nearestMultiple(setting.facts, vernier);
  const whole = wholePart(setting, vernier);
  const manner = mannerOf(setting, SUBJECT);
  if (nearest === null) return whole ?? workedClaim(setting, SUBJECT, []);
  const { b, m, isAbove } = nearest;
  const main = times(m, vernier.coarse);
  const fine = times(b, vernier.fine);
  const [mainValue, fineValue] = [exactValue(main, manner), exactValue(fine, manner)];
  if (whole !== null && (isFraction(mainValue) || isFraction(fineValue))) return whole;
  const [mainName, fineName] = [
    counted(m, baseName(setting, vernier)),
    counted(b, nameOf(setting, 'vernier')),
  ];
  const links = isAbove
    ? [joined('subtract', fineName, mainName), joined('subtract', fineValue, mainValue)]
    : [joined('subtract', mainName, fineName), joined('subtract', mainValue, fineValue)];
  if (R.isZero(m)) links.splice(0, 2, fineName, fineValue);
  return workedClaim(setting, SUBJECT, links, whyNotDifference(setting, vernier, nearest, fineValue));
}

function baseName(setting: Setting, { base }: VernierDivisions): Expression {
  return nameOf(setting, base);
}

/** `S / N = 0.5° / 30`, because N vernier divisions fall short of N main ones by just one. */
function wholePart(setting: Setting, vernier: VernierDivisions): Step | null {
  const count = fineCount(setting.facts);
  const { coarse, fine, leastCount } = vernier;
  if (!count.ok || !S.equals(S.multiply(count.quantity.scalar, leastCount.scalar), coarse.scalar))
    return null;
  const number = plainNumber(count.quantity.scalar);
  const name = baseName(setting, vernier);
  const lines = S.realValue(count.quantity.scalar);
  const span = S.divide(S.multiply(fine.scalar, count.quantity.scalar), coarse.scalar);
  const spans = span === null ? null : S.realValue(span);
  const reason =
    lines === null || spans === null
      ? null
      : isNextTo(lines, spans)
        ? `${R.toFractionText(lines)} VSD are ${R.toFractionText(spans)} ${DIVISION_NAME[vernier.base]}, so the two divisions differ by 1/${R.toFractionText(lines)} of a ${vernier.base} division`
        : `${R.toFractionText(lines)} vernier divisions are ${R.toFractionText(spans)} of the ${vernier.base} scale, and the two numbers have no common divisor, so the smallest step is 1/${R.toFractionText(lines)} of a division`;
  return workedClaim(
    setting,
    SUBJECT,
    [
      joined('divide', name, nameOf(setting, 'count')),
      joined('divide', exactValue(coarse, mannerOf(setting, SUBJECT)), number),
    ],
    reason,
  );
}

const DIVISION_NAME = { main: 'MSD', linear: 'LSD', circular: 'CSD' } as const;

/** Whether two whole numbers differ by one. */
function isNextTo(a: R.Rational, b: R.Rational): boolean {
  return R.equals(R.abs(R.subtract(a, b)), R.ONE);
}

/** Where S - V is not the least count: what is, and which lines make it. */
function whyNotDifference(
  setting: Setting,
  vernier: VernierDivisions,
  { b, m, isAbove }: { readonly b: R.Rational; readonly m: R.Rational; readonly isAbove: boolean },
  fineValue: Expression,
): string | null {
  const base = vernier.base === 'main' ? 'main' : vernier.base;
  const isOne = R.equals(b, R.ONE);
  if (isOne && R.equals(m, R.ONE))
    return isAbove ? 'The vernier division is the longer one, so the main one is taken from it' : null;
  const count = R.toFractionText(m);
  const divisions = R.equals(m, R.ONE) ? `${base} division` : `${base} divisions`;
  if (isOne && R.isZero(m)) return 'One vernier division is already the smallest step';
  if (isOne)
    return `One vernier division is a little ${isAbove ? 'more' : 'less'} than ${count} ${divisions}, so it is compared with ${count} of them, not with one`;
  const difference = S.abs(S.subtract(vernier.coarse.scalar, vernier.fine.scalar));
  const manner = mannerOf(setting, SUBJECT);
  const apart =
    difference === null
      ? ''
      : ` = ${expressionText(exactValue({ ...vernier.coarse, scalar: difference }, manner))}`;
  const longer = S.compare(vernier.fine.scalar, vernier.coarse.scalar) === 1;
  const [S_, V_] = [expressionText(baseName(setting, vernier)), expressionText(nameOf(setting, 'vernier'))];
  return `${longer ? `${V_} - ${S_}` : `${S_} - ${V_}`}${apart} is not the smallest step here: ${R.toFractionText(b)} vernier divisions, ${expressionText(fineValue)}, come nearest to a whole number of ${base} divisions, ${count}`;
}

function byScrew(setting: Setting): Step {
  const { facts } = setting;
  const manner = mannerOf(setting, SUBJECT);
  const pitch = termValue(facts, 'pitch');
  const count = fineCount(facts);
  const recorded = divisionSource(facts, 'circular');
  const isDirect = recorded?.kind === 'length' && S.equals(recorded.count, S.UNITY);
  if (pitch === null || !count.ok || isDirect) {
    const one = divisionOf(facts, 'circular scale division');
    return workedClaim(
      setting,
      SUBJECT,
      [nameOf(setting, 'circular'), ...(one === null ? [] : [exactValue(one, manner)])],
      'The least count of a screw is one division of its circular scale',
    );
  }
  return workedClaim(setting, SUBJECT, [
    joined('divide', nameOf(setting, 'pitch'), nameOf(setting, 'count')),
    joined('divide', exactValue(pitch, manner), plainNumber(count.quantity.scalar)),
  ]);
}

function byBareScale(setting: Setting): Step {
  const { facts } = setting;
  const which = divisionOf(facts, 'main scale division') !== null ? 'main' : 'linear';
  const one = divisionOf(facts, `${which} scale division`);
  const manner = mannerOf(setting, SUBJECT);
  return workedClaim(
    setting,
    SUBJECT,
    [nameOf(setting, which), ...(one === null ? [] : [exactValue(one, manner)])],
    'A scale without a vernier tells its own divisions apart',
  );
}

/** `S`, `2 × S`. */
function counted(count: R.Rational, name: Expression): Expression {
  return R.equals(count, R.ONE) ? name : joined('multiply', plainNumber(S.real(count)), name);
}

function times(count: R.Rational, one: Q.Quantity): Q.Quantity {
  return { ...one, scalar: S.multiply(one.scalar, S.real(count)) };
}

function isFraction(value: Expression): boolean {
  return value.kind === 'measured';
}
