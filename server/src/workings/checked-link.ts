import { comparable, isReading } from '../checks/agreement.ts';
import { roundsWithin } from '../checks/numbers-put-in.ts';
import type { RightValue } from '../checks/right-value.ts';
import { namesIn, rewrite } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { roundsTo } from '../engine/rounds-to.ts';
import * as S from '../engine/scalar.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { definitionOf } from '../language/facts-own.ts';
import type { Claim, Stated, Subject } from '../language/measurement.ts';
import { inShownUnit, putIn, putInText } from './put-in.ts';

/** A formula as a reader takes it: every rounded number for what is written, with the place of its last digit. */
function asRead(formula: Expression): Expression {
  return rewrite(formula, part => {
    const [, digits = '', power] =
      (part.kind === 'literal' && /^(\d[\d.]*)(?:e(-?\d+))?/.exec(part.text)) || [];
    const number = R.parseDecimal(digits);
    if (part.kind !== 'literal' || number === null || /[°′″]|\d\s*[/×]/.test(part.text)) return null;
    const scale = R.powerInteger(R.TEN, Number(power ?? 0)) ?? R.ONE;
    const step = R.powerInteger(R.TEN, -(digits.split('.')[1]?.length ?? 0)) ?? R.ONE;
    const { unit } = part.quantity;
    const value = R.multiply(number, scale);
    const place = R.multiply(step, scale);
    if (unit === null) return { ...part, quantity: Q.plain(value), place };
    return { ...part, quantity: Q.quantity(value, unit), place: R.multiply(place, unit.factor) };
  });
}

/** Guard places that are tried until the numbers as written give the result as written. */
const MOST_GUARDS = 3;

/**
 * A formula with the numbers in it, as a link that a check finds right.
 *
 * Rounded numbers get a guard place or two where the written ones would not give the written result. Null where there
 * is nothing to put in, or where no such link would be right.
 */
export function numbersPutIn(
  facts: Facts,
  subject: Subject,
  formula: Expression,
  result: RightValue,
): Expression | null {
  if (formula.kind === 'name') return null;
  return bestLink(facts, subject, result, guard => withNumbers(facts, formula, guard), formula);
}

/** The link of those with no, one, two … guard places that gives the result as it is written; null where none is right. */
export function bestLink(
  facts: Facts,
  subject: Subject,
  result: RightValue,
  build: (guard: number) => Expression | null,
  formula: Expression | null = null,
): Expression | null {
  let fallback: Expression | null = null;
  for (let guard = 0; guard <= MOST_GUARDS; guard++) {
    const link = build(guard);
    if (link === null) return null;
    if (!linkHolds(facts, subject, link, result.quantity, formula)) continue;
    if (givesResult(facts, link, result)) return link;
    if (guard <= 1) fallback = link;
  }
  return fallback;
}

/** The formula with the values of its names; null where it has none that are numbers. */
function withNumbers(facts: Facts, formula: Expression, guard: number): Expression | null {
  const values = new Map<string, Expression>();
  for (const key of namesIn(formula)) {
    const subject = facts.measurement.subjects.get(key);
    const value = subject === undefined ? null : putIn(facts, subject, guard);
    if (value !== null) values.set(key, value);
  }
  if (values.size === 0) return null;
  return rewrite(formula, part => (part.kind === 'name' ? (values.get(part.key) ?? null) : null));
}

/** Whether a check finds nothing in a link with numbers put in; `formula` is the link before it, if there is one. */
export function linkHolds(
  facts: Facts,
  subject: Subject,
  link: Expression,
  truth: Q.Quantity,
  formula: Expression | null = null,
): boolean {
  const read = asRead(link);
  const value = valueIn(facts, read);
  const pair = value === null ? null : comparable(truth, value);
  if (value === null || pair === null || hasTwoReadings(facts, read, truth)) return false;
  if (S.equals(pair.truth.scalar, pair.stated.scalar)) return true;
  if (isReading(subject) || namesIn(link).size > 0) return false;
  const before = formula === null ? [] : [statedAs(formula)];
  return roundsWithin(facts, claimLike(subject, before), statedAs(read), truth, value);
}

/** Whether the numbers as written give the result as written. */
function givesResult(facts: Facts, link: Expression, result: RightValue): boolean {
  const value = valueIn(facts, asRead(link));
  const pair = value === null ? null : comparable(result.quantity, value);
  if (pair === null) return false;
  if (S.equals(pair.truth.scalar, pair.stated.scalar)) return true;
  const put = putInText(result.text, inShownUnit(result));
  const literal = asRead(put.kind === 'negate' ? put.of : put);
  if (literal.kind !== 'literal' || literal.place === null) return false;
  const got = S.realValue(pair.stated.scalar);
  const shown = S.realValue(literal.quantity.scalar);
  return got !== null && shown !== null && roundsTo(R.abs(got), R.abs(shown), literal.place);
}

/** Whether `100 V / 10 A` could be a product with the block's own V as well: then nobody can tell which is meant. */
function hasTwoReadings(facts: Facts, link: Expression, truth: Q.Quantity): boolean {
  const names = facts.measurement.own;
  const isName = (symbol: string): boolean =>
    names.has(symbol) || facts.measurement.symbols.has(symbol) || definitionOf(facts, symbol) !== null;
  let hasName = false;
  const named = rewrite(link, part => {
    if (part.kind !== 'literal' || part.quantity.unit === null) return null;
    const { parts } = part.quantity.unit;
    const twin = parts.find(({ symbol }) => isName(symbol));
    if (twin === undefined || parts.length > 1) return null;
    const subject: Subject = { kind: 'own', name: twin.symbol, row: null, block: null };
    const value = facts.value(facts.measurement.symbols.get(twin.symbol) ?? subject);
    const number = Q.inUnit(part.quantity, part.quantity.unit);
    const power = value.ok ? Q.power(value.quantity, R.rational(twin.exponent)) : null;
    const product = number === null || !power?.ok ? null : Q.multiply(Q.plain(number), power.quantity);
    if (!product?.ok) return null;
    hasName = true;
    return { ...part, quantity: product.quantity };
  });
  const value = hasName && link.kind !== 'literal' ? valueIn(facts, named) : null;
  return value !== null && comparable(truth, value) !== null;
}

function valueIn(facts: Facts, expression: Expression): Q.Quantity | null {
  const value = evaluateIn(facts, expression);
  return value.ok ? value.quantity : null;
}

const NOWHERE = { start: 0, end: 0 } as const;

function statedAs(expression: Expression): Stated {
  return {
    expression,
    error: null,
    isValue: false,
    hasUnit: true,
    span: NOWHERE,
    text: '',
    readings: [],
    mixed: [],
    spans: new Map(),
  };
}

/** A claim that nobody made, to ask what a check would say of it. */
export function claimLike(subject: Subject, links: readonly Stated[] = []): Claim {
  return {
    subject,
    symbol: null,
    times: null,
    subjectText: '',
    subjectSpan: NOWHERE,
    links: links.map(stated => ({ content: { kind: 'stated', stated }, span: NOWHERE })),
    span: NOWHERE,
    signSpan: NOWHERE,
    inTable: false,
    mended: false,
  };
}
