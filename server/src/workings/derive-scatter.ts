import type { Derivation, Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { linkHolds } from './checked-link.ts';
import { MOST_SUMMED, meanStep } from './mean-step.ts';
import { overCount, resultLink, writtenValue } from './put-in.ts';
import { claimStep, equal, joined, named, written } from './step-parts.ts';
import { claimOf, fullNameIn, nameIn, titleOf } from './subject-name.ts';
import { inBrackets, listedValues, numberIn, sumIn, type ValueList } from './value-list.ts';

/** Longer lists get no table of their deviations. */
const MOST_ROWS = 30;
/** Squares of more deviations than that are not written out in a line. */
const MOST_SQUARES = 6;
/** Places behind those of the values to which a deviation from a mean without end is written. */
const GUARDS = 2;

/**
 * How repeated values scatter about their mean: the mean first where the block does not work it out itself, then every
 * deviation, then the mean absolute error or the standard deviation (with n - 1).
 */
export function scatterDerivation(facts: Facts, subject: Subject): Derivation | null {
  const right = writtenValue(facts, subject);
  const list = listedValues(facts, subject);
  if (right === null || list === null) return null;
  const steps: Step[] = [];
  if (!isWorkedElsewhere(facts, list.mean)) {
    const mean = meanStep(facts, list.mean);
    if (mean !== null) steps.push(mean);
  }
  const deviations = deviationsOf(list);
  const squares = isSquared(subject);
  if (deviations !== null && list.values.length <= MOST_ROWS)
    steps.push(tableOf(facts, list, deviations, squares));
  const candidates =
    deviations === null ? [] : squares ? rootLinks(list, deviations) : averageLinks(list, deviations);
  const links = candidates
    .filter(link => linkHolds(facts, subject, link, right.quantity))
    .map(link => equal(link));
  const reason = squares ? squaredReason(list.values.length) : SIZES;
  steps.push(claimStep(named(fullNameIn(facts, subject)), [...links, resultLink(right)], reason));
  return { title: titleOf(facts, subject), steps };
}

const SIZES = 'the deviations are added without their signs and divided by their number';

function squaredReason(count: number): string {
  return `the squares of the deviations are added and divided by n - 1 = ${count - 1}, one less than the number of values, since their mean was taken from the same values`;
}

function isSquared(subject: Subject): boolean {
  return (
    (subject.kind === 'statistic' && subject.statistic === 'standard deviation') ||
    (subject.kind === 'term' && subject.term === 'standard deviation')
  );
}

/** Whether the block works the mean out in a line of its own; that of a table's readings always has its working. */
function isWorkedElsewhere(facts: Facts, mean: Subject): boolean {
  return (mean.kind === 'term' && facts.measurement.rows.length > 1) || claimOf(facts, mean) !== null;
}

interface Deviations {
  readonly mean: R.Rational;
  readonly exact: readonly R.Rational[];
  /** Decimal places to write them with. */
  readonly places: number;
  readonly end: boolean;
}

/** Every value less the mean; null where some are in letters or have no end. */
function deviationsOf({ numbers, places }: ValueList): Deviations | null {
  const exact = numbers.filter(number => number !== null);
  if (exact.length < numbers.length || places === null) return null;
  const mean = R.divide(exact.reduce(R.add, R.ZERO), R.rational(exact.length)) ?? R.ZERO;
  const differences = exact.map(number => R.subtract(number, mean));
  const needed = R.terminatingPlaces(mean);
  const end = needed !== null && needed <= places + GUARDS;
  return { mean, exact: differences, places: end ? Math.max(places, needed) : places + GUARDS, end };
}

function tableOf(
  facts: Facts,
  list: ValueList,
  { mean, exact, places, end }: Deviations,
  squares: boolean,
): Step {
  const { unit, name } = list;
  const last = squares ? `its square${inBrackets(unit, 2)}` : `its size${inBrackets(unit)}`;
  const middle = nameIn(facts, list.mean);
  const meanText = Q.shownDecimal(Q.plain(mean), PLAIN, places);
  const shown = unit === null ? meanText : `${meanText}${inBrackets(unit).replace(/^ \((.*)\)$/, ' $1')}`;
  return {
    kind: 'table',
    reason: `each value less the ${middle.startsWith('mean') ? '' : 'mean '}${middle}, ${end ? '' : 'about '}${shown}`,
    header: [`${name}${inBrackets(unit)}`, `deviation${inBrackets(unit)}`, last],
    rows: exact.map((difference, index) => [
      cell(list.numbers[index] ?? R.ZERO, list.places ?? 0),
      cell(difference, places),
      squares
        ? cell(R.multiply(difference, difference), end ? 2 * places : places + GUARDS)
        : cell(R.abs(difference), places),
    ]),
  };
}

const PLAIN = { symbol: '', dimension: Q.PI.dimension, factor: R.ONE, exact: true, parts: [] } as const;

function cell(value: R.Rational, places: number): Expression {
  const quantity = Q.plain(value);
  return written(Q.shownDecimal(quantity, PLAIN, places), quantity);
}

/** `(0.006 + 0.064) s / 2`, then the sum over their number. */
function averageLinks({ unit }: ValueList, { exact, places, end }: Deviations): readonly Expression[] {
  const sizes = exact.map(R.abs);
  const links: Expression[] = [];
  if (sizes.length <= MOST_SUMMED) links.push(sumIn(sizes, places, unit));
  if (end && sizes.length > 1) links.push(numberIn(sizes.reduce(R.add, R.ZERO), places, unit));
  return links.map(link => overCount(link, sizes.length));
}

/** `sqrt(0.0870 s^2 / (5 - 1))`; squares one by one where their sum has no end. */
function rootLinks({ unit }: ValueList, { exact, places, end }: Deviations): readonly Expression[] {
  const count = exact.length;
  const squareUnit = unit === null ? null : Q.power(Q.quantity(R.ONE, unit), R.TWO);
  const sum = exact.map(one => R.multiply(one, one)).reduce(R.add, R.ZERO);
  const needed = R.terminatingPlaces(sum);
  const freedom = joined('subtract', whole(count), whole(1));
  const root = (top: Expression): Expression => ({
    kind: 'call',
    name: 'sqrt',
    arguments: [joined('divide', top, freedom)],
  });
  if (squareUnit?.ok === false || (end === false && count > MOST_SQUARES)) return [];
  if (needed !== null && needed <= 2 * places)
    return [root(numberIn(sum, 2 * places, squareUnit === null ? null : squareUnit.quantity.unit))];
  if (count > MOST_SQUARES) return [];
  const squared = exact.map(one => joinedPower(numberIn(R.abs(one), places, unit)));
  return [root(squared.slice(1).reduce((total, term) => joined('add', total, term), squared[0]!))];
}

function joinedPower(base: Expression): Expression {
  return { kind: 'power', base, exponent: whole(2) };
}

function whole(value: number): Expression {
  return written(String(value), Q.plain(R.rational(value)));
}
