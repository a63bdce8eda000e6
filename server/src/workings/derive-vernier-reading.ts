import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { nearestSolution } from '../engine/reading.ts';
import * as S from '../engine/scalar.ts';
import { unitShown } from '../engine/unit.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import { readingsOf } from '../language/facts-position.ts';
import type { Observation, RowNumber } from '../language/measurement.ts';
import { congruenceOf } from '../language/vernier-lines.ts';
import { expressionText } from '../render/expression-text.ts';
import { byTheScales, type LineInLine } from './by-the-scales.ts';
import { type MarkPart, markPart } from './mark-part.ts';
import { nameOf, type Setting, termSubject, termValue } from './setting.ts';
import { equal, joined, named, sideStep } from './step-parts.ts';
import { vernierDivisions, vernierRule } from './vernier-rule.ts';
import { mannerOf, workedClaim } from './worked-claim.ts';
import { exactValue, type Manner, plainNumber } from './written-value.ts';

/** How the fine scale's share stands in a formula, and what it is worth. */
interface Share {
  readonly name: Expression;
  readonly value: Expression;
  readonly scalar: S.Scalar;
}

/**
 * A vernier reading by the least count, `MSR + n × LC`, or by the scales themselves, `x + n × V = m × S`.
 *
 * The first only where it holds, on a vernier that counts down as `MSR + (N - n) × LC`; else the second, and a sentence
 * says why.
 */
export function deriveVernierReading(setting: Setting, row: RowNumber): readonly Step[] | null {
  const { facts } = setting;
  const subject = termSubject('observed reading', row);
  const manner = mannerOf(setting, subject);
  const reading = termValue(facts, 'observed reading', row);
  const mark = markPart(setting, 'main', row, manner);
  const line = termValue(facts, 'coinciding division', row);
  if (reading === null || mark === null || line === null) return null;
  const byCount =
    setting.way === 'scales' ? null : leastCountWay(setting, row, { mark, line, reading }, manner);
  return (
    byCount ??
    scalesWay(setting, row, { mark, line, reading }, manner) ??
    leastCountWay(setting, row, { mark, line, reading }, manner)
  );
}

interface Read {
  readonly mark: MarkPart;
  readonly line: Q.Quantity;
  readonly reading: Q.Quantity;
}

function leastCountWay(setting: Setting, row: RowNumber, read: Read, manner: Manner): readonly Step[] | null {
  const { mark, line, reading } = read;
  const fine = vernierShare(setting, line, manner);
  if (fine === null || !S.equals(S.add(mark.length.scalar, fine.scalar), reading.scalar)) {
    const { vernierLines } = setting.facts.scales();
    const isFirst = S.isZero(line.scalar);
    const isLast = vernierLines !== null && S.equals(line.scalar, vernierLines);
    if (!S.equals(mark.length.scalar, reading.scalar) || !(isFirst || isLast)) return null;
    const why = isFirst
      ? 'Line 0 is in line, so the zero of the vernier stands just on the mark'
      : 'The last line and the zero of the vernier are in line together, so it stands just on the mark';
    return claimed(setting, row, mark.name, mark.value, { all: null, own: why });
  }
  return claimed(setting, row, joined('add', mark.name, fine.name), joined('add', mark.value, fine.value), {
    all: sentence([whyDown(setting), whyOtherUnit(setting, manner)]),
    own: whyHalf(setting, row),
  });
}

/** What the vernier adds by its rule: `n × LC`, or `(N - n) × LC`; null where neither holds for it. */
export function vernierShare(setting: Setting, line: Q.Quantity, manner: Manner): Share | null {
  const { facts } = setting;
  const least = termValue(facts, 'least count');
  const rule = vernierRule(facts);
  if (least === null || rule === 'odd') return null;
  const [n, LC] = [nameOf(setting, 'coinciding division'), nameOf(setting, 'least count')];
  const [count, one] = [plainNumber(line.scalar), exactValue(least, manner)];
  const { vernierLines } = facts.scales();
  if (rule === 'up')
    return {
      name: joined('multiply', n, LC),
      value: joined('multiply', count, one),
      scalar: S.multiply(line.scalar, least.scalar),
    };
  if (vernierLines === null) return null;
  return {
    name: joined('multiply', joined('subtract', nameOf(setting, 'count'), n), LC),
    value: joined('multiply', joined('subtract', plainNumber(vernierLines), count), one),
    scalar: S.multiply(S.subtract(vernierLines, line.scalar), least.scalar),
  };
}

/**
 * An observed reading with its formula in names and the numbers put in.
 *
 * Of a row the names stand for no value of the block, so they lead a line of their own, before the first row only.
 * `all` is a reason that holds for every row, `own` one for this reading.
 */
export function claimed(
  setting: Setting,
  row: RowNumber,
  name: Expression,
  value: Expression,
  { all, own }: { readonly all: string | null; readonly own: string | null },
): readonly Step[] {
  const subject = termSubject('observed reading', row);
  if (row === null) return [workedClaim(setting, subject, [name, value], sentence([own, all]))];
  const claim = workedClaim(setting, subject, [value], own);
  return row === 1 ? [sideStep(named('observed reading'), [equal(name)], all), claim] : [claim];
}

function sentence(reasons: readonly (string | null)[]): string | null {
  const said = reasons.filter((text): text is string => text !== null);
  return said.length === 0 ? null : said.join('; ');
}

function whyHalf({ facts }: Setting, row: RowNumber): string | null {
  const line = readingsOf(facts, row).get('coinciding division');
  const ends = line?.kind === 'between' ? betweenTexts(line) : null;
  return ends && `Lines ${ends[0]} and ${ends[1]} share the coincidence, so halfway between them counts`;
}

function betweenTexts(
  line: Extract<Observation, { readonly kind: 'between' }>,
): readonly [string, string] | null {
  return line.low.kind === 'count' && line.high.kind === 'count'
    ? [line.low.count.text, line.high.count.text]
    : null;
}

function whyDown({ facts }: Setting): string | null {
  if (vernierRule(facts) !== 'down') return null;
  return facts.measurement.runsBackward
    ? 'The shorter vernier division is numbered backward, so line n stands for N - n least counts'
    : 'The vernier division is the longer one, so line n stands for N - n least counts';
}

/** `The reading is in cm, in which the least count is 0.002 cm`, where it was worked out in another unit. */
function whyOtherUnit(setting: Setting, manner: Manner): string | null {
  const least = termValue(setting.facts, 'least count');
  const { unit } = mannerOf(setting, termSubject('least count'));
  if (
    least === null ||
    manner.sexagesimal ||
    unit === null ||
    manner.unit === null ||
    unit.symbol === manner.unit.symbol
  )
    return null;
  return `The reading is in ${unitShown(manner.unit)}, so the least count goes in as ${expressionText(exactValue(least, manner))}`;
}

function scalesWay(setting: Setting, row: RowNumber, read: Read, manner: Manner): readonly Step[] | null {
  const { facts } = setting;
  const subject = termSubject('observed reading', row);
  const vernier = vernierDivisions(facts);
  if (vernier === null) return null;
  const { mark, line, reading } = read;
  const from = mark.length;
  const found: Omit<LineInLine, 'line' | 'at'> = { vernier, from, unknown: 'x' };
  const why = setting.way === 'scales' || vernierRule(facts) !== 'odd' ? null : whyNotLeastCount(read);
  const observation = readingsOf(facts, row).get('coinciding division');
  if (observation?.kind === 'between') return between(setting, row, reading, found, manner, observation);
  const way = byTheScales(setting, { ...found, line: line.scalar, at: reading }, manner);
  if (way === null) return null;
  const [first, ...others] = way.steps;
  const steps =
    first?.kind !== 'line' || why === null
      ? way.steps
      : [{ ...first, reason: `${why}. ${first.reason}` }, ...others];
  return [...steps, workedClaim(setting, subject, [way.link])];
}

function whyNotLeastCount({ line }: Read): string {
  const n = S.scalarText(line.scalar);
  return `On this vernier line ${n} does not stand for ${n} least counts, so the scales themselves are compared`;
}

/** Two lines share the coincidence: what each of them says, then halfway between. */
function between(
  setting: Setting,
  row: RowNumber,
  reading: Q.Quantity,
  found: Omit<LineInLine, 'line' | 'at'>,
  manner: Manner,
  observation: Extract<Observation, { readonly kind: 'between' }>,
): readonly Step[] | null {
  const { facts } = setting;
  const at = S.realValue(reading.scalar);
  const ends = betweenTexts(observation);
  if (at === null || ends === null) return null;
  const steps: Step[] = [];
  const places: Q.Quantity[] = [];
  for (const [index, end] of [observation.low, observation.high].entries()) {
    const count = end.kind === 'count' ? evaluateIn(facts, end.count.expression) : null;
    if (!count?.ok) return null;
    const line = count.quantity.scalar;
    const text = ends[index]!;
    const congruence = congruenceOf(facts, line);
    if (congruence === null) return null;
    const place = { ...reading, scalar: S.real(nearestSolution(at, congruence.residue, congruence.modulus)) };
    const way = byTheScales(setting, { ...found, line, at: place }, manner);
    if (way === null) return null;
    const own = exactValue(place, manner);
    steps.push(
      sideStep(
        named('x'),
        [equal(way.link), equal(own)],
        `Were line ${text} in line with a mark, the reading would be`,
      ),
    );
    places.push(place);
  }
  const [low, high] = places;
  if (low === undefined || high === undefined) return null;
  const sum = S.add(low.scalar, high.scalar);
  if (!S.equals(sum, S.multiply(reading.scalar, S.real(R.TWO)))) return null;
  const middle = joined(
    'divide',
    joined('add', exactValue(low, manner), exactValue(high, manner)),
    plainNumber(S.real(R.TWO)),
  );
  const why = `Lines ${ends[0]} and ${ends[1]} share the coincidence, so the reading is halfway between`;
  return [...steps, workedClaim(setting, termSubject('observed reading', row), [middle], why)];
}
