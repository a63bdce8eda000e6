import type { Derivation, Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { closedValue } from '../language/facts-zero.ts';
import type { Subject } from '../language/measurement.ts';
import { expressionText } from '../render/expression-text.ts';
import { closedSteps } from './closed-steps.ts';
import { nameOf, type Setting, settingOf, termSubject, termValue } from './setting.ts';
import { equal, joined, named, sideStep, written } from './step-parts.ts';
import { leastPlaces, mannerOf, titleOf, workedClaim } from './worked-claim.ts';
import type { Deriving } from './working.ts';
import { exactValue, type Manner, plainNumber } from './written-value.ts';

/**
 * How the zero error follows from the closed instrument, with the reason of its sign, or the zero correction from it.
 *
 * Several checks give their mean. Null where it is given, of another block, or not determined.
 */
export function deriveZero(deriving: Deriving, subject: Subject): Derivation | null {
  if (subject.kind !== 'term' || subject.block !== null) return null;
  const { facts } = deriving;
  const answer = facts.value(subject);
  if (!answer.ok || answer.source !== 'computed') return null;
  const setting = settingOf(deriving);
  const steps = subject.term === 'zero correction' ? correctionSteps(setting) : errorSteps(setting);
  return steps === null ? null : { title: titleOf(facts, subject), steps };
}

const ERROR = termSubject('zero error');
const CORRECTION = termSubject('zero correction');

function correctionSteps(setting: Setting): readonly Step[] | null {
  const error = termValue(setting.facts, 'zero error');
  // Where the correction is given the error follows from it, not the other way round.
  if (error === null || setting.facts.measurement.givens.has('zero correction')) return null;
  if (S.isZero(error.scalar)) return [workedClaim(setting, CORRECTION, [])];
  return [
    workedClaim(setting, CORRECTION, [
      { kind: 'negate', of: nameOf(setting, 'zero error') },
      {
        kind: 'negate',
        of: signed(error, {
          ...mannerOf(setting, CORRECTION),
          atLeast: leastPlaces(setting.facts, mannerOf(setting, CORRECTION).unit),
        }),
      },
    ]),
  ];
}

/** `+0.06 mm`: a zero error is never written without its sign. */
function signed(value: Q.Quantity, manner: Manner): Expression {
  const size = exactValue(value, manner);
  return size.kind === 'literal' && S.sign(value.scalar) === 1
    ? written(`+${size.text}`, size.quantity)
    : size;
}

function errorSteps(setting: Setting): readonly Step[] | null {
  const { closed } = setting.facts.measurement;
  const [only, ...others] = closed;
  if (only === undefined) return withoutCheck(setting);
  if (others.length === 0) return oneCheck(setting);
  return closed.length > MOST_SHOWN ? manyChecks(setting) : severalChecks(setting);
}

function oneCheck(setting: Setting): readonly Step[] {
  const { steps, links, sign, count } = closedSteps(setting, setting.facts.measurement.closed[0]!, ERROR);
  return [
    ...steps,
    workedClaim(setting, ERROR, links, sign === null || count === null ? sign : `${sign}; ${count}`),
  ];
}

/** In the unit of the zero error, with the places of the least count. */
function zeroManner(setting: Setting): Manner {
  const manner = mannerOf(setting, ERROR);
  return { ...manner, atLeast: leastPlaces(setting.facts, manner.unit) };
}

/** Each check by itself, then `(a - b) / 2`. */
function severalChecks(setting: Setting): readonly Step[] | null {
  const { facts } = setting;
  const manner = zeroManner(setting);
  const steps: Step[] = [];
  const values: Q.Quantity[] = [];
  let told: string | null = null;
  for (const [index, check] of facts.measurement.closed.entries()) {
    const value = closedValue(facts, check);
    if (!value.ok) return null;
    const { steps: before, links, sign, count: why } = closedSteps(setting, check, ERROR);
    const own = signed(value.quantity, manner);
    const last = links.at(-1);
    // The side is said once for checks that stand on the same one.
    const reasons = [sign === told ? null : sign, why].filter((text): text is string => text !== null);
    told = sign;
    const isRepeated = last !== undefined && expressionText(last) === expressionText(own);
    steps.push(
      ...before,
      sideStep(
        named(`zero error ${index + 1}`),
        [...links, ...(isRepeated ? [] : [own])].map(link => equal(link)),
        reasons.length === 0 ? null : capital(reasons.join('; ')),
      ),
    );
    values.push(value.quantity);
  }
  const sum = joined('divide', sumOf(values, manner), count(values.length));
  return [
    ...steps,
    workedClaim(setting, ERROR, [sum], `The mean of the ${IN_WORDS[values.length] ?? values.length} checks`),
  ];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

const IN_WORDS: Readonly<Record<number, string>> = { 2: 'two', 3: 'three', 4: 'four', 5: 'five', 6: 'six' };

function count(number: number): Expression {
  return plainNumber(S.real(R.rational(number)));
}

/** `-0.06 mm - 0.10 mm + 0.02 mm`. */
function sumOf(values: readonly Q.Quantity[], manner: Manner): Expression {
  const [first, ...others] = values;
  let sum = exactValue(first!, manner);
  for (const value of others) {
    const isBelow = S.sign(value.scalar) === -1;
    const size = exactValue(isBelow ? Q.negate(value) : value, manner);
    sum = joined(isBelow ? 'subtract' : 'add', sum, size);
  }
  return sum;
}

/** More checks than these stand in a table. */
const MOST_SHOWN = 6;
/** No table of a working is longer. */
const MOST_ROWS = 60;

function manyChecks(setting: Setting): readonly Step[] | null {
  const { facts } = setting;
  const { closed } = facts.measurement;
  const manner = zeroManner(setting);
  const mean = termValue(facts, 'zero error');
  if (mean === null) return null;
  const total = { ...mean, scalar: S.multiply(mean.scalar, S.real(R.rational(closed.length))) };
  const rows = closed.slice(0, MOST_ROWS).flatMap((check, index) => {
    const value = closedValue(facts, check);
    return value.ok ? [[String(index + 1), signed(value.quantity, manner)]] : [];
  });
  return [
    { kind: 'table', reason: 'Each check by itself', header: ['check', 'zero error'], rows },
    workedClaim(
      setting,
      ERROR,
      [joined('divide', exactValue(total, manner), count(closed.length))],
      `The mean of the ${closed.length} checks`,
    ),
  ];
}

/** From a given correction, or from what a given observed and corrected reading differ by. */
function withoutCheck(setting: Setting): readonly Step[] | null {
  const { facts } = setting;
  const manner = mannerOf(setting, ERROR);
  const error = termValue(facts, 'zero error');
  if (error === null) return null;
  if (facts.measurement.givens.has('zero correction')) {
    const correction = termValue(facts, 'zero correction');
    if (correction === null || S.isZero(error.scalar)) return [workedClaim(setting, ERROR, [])];
    return [
      workedClaim(setting, ERROR, [
        { kind: 'negate', of: nameOf(setting, 'zero correction') },
        { kind: 'negate', of: signed(correction, manner) },
      ]),
    ];
  }
  const [observed, corrected] = [termValue(facts, 'observed reading'), termValue(facts, 'corrected reading')];
  if (observed === null || corrected === null) return [workedClaim(setting, ERROR, [])];
  return [
    workedClaim(
      setting,
      ERROR,
      [
        joined('subtract', nameOf(setting, 'observed reading'), nameOf(setting, 'corrected reading')),
        joined('subtract', exactValue(observed, manner), exactValue(corrected, manner)),
      ],
      'The zero error is what the instrument shows beyond the true size',
    ),
  ];
}
