import { powersOf } from '../derivative.ts';
import { holdsPi } from '../evaluation.ts';
import * as R from '../rational.ts';
import { exampleNote } from './example-note.ts';
import { type FormulaName, formulaNames, formulaWith } from './formula-names.ts';
import { gives } from './gives.ts';
import { inOwnUnit } from './in-words.ts';
import type { Slip } from './slip.ts';
import { times } from './sums.ts';

/** Radius and diameter taken for each other in a formula. */
export const radiusForDiameter: Slip = {
  name: 'radius-for-diameter',
  summary: 'radius and diameter were taken for each other',
  explanation:
    'What a pair of calipers gives is a diameter; what many formulas ask for is a radius. A ball is 4/3 π r³ or π D³/6, a section π r² or π D²/4. Putting the one into the formula of the other makes a section four times and a ball eight times too large, or as many times too small.',
  formula: 'D where r = D/2 belongs, or r where D = 2r belongs',
  example: exampleNote(
    'D: 7.88 mm',
    'volume v = pi D^3 / 6 = 2.05 cm^3',
    '#                       ^^^^^^^^^ error wrong-value [radius-for-diameter]',
  ),
  values(data) {
    const { formula } = data;
    if (data.target !== 'own' || formula === null) return [];
    const isRound = holdsPi(formula);
    const powers = isRound ? powersOf(formula) : null;
    return formulaNames(data)
      .filter(name => isLength(name) && (isAcross(name) || hasRoundPower(powers?.get(name.key))))
      .flatMap(name => [
        ...gives(formulaWith(data, name, times(name.value, R.HALF)), () => halved(name)),
        ...gives(formulaWith(data, name, times(name.value, R.TWO)), () => doubled(name)),
      ]);
  },
};

const DIAMETER = /^[dD][\d_₀-₉]*$|^[dD]_|diameter/i;
const RADIUS = /^[rR][\d_₀-₉]*$|^[rR]_|radius/i;

function isLength({ value: { dimension } }: FormulaName): boolean {
  const { length, ...others } = dimension;
  return length === 1 && Object.values(others).every(power => power === 0);
}

function isAcross({ label }: FormulaName): boolean {
  return DIAMETER.test(label) || RADIUS.test(label);
}

/** Areas and volumes go with the square and the cube; of a length alone beside π there is nothing to mistake. */
function hasRoundPower(power: R.Rational | undefined): boolean {
  if (power === undefined) return false;
  const whole = R.toInteger(R.abs(power));
  return whole === 2 || whole === 3;
}

function halved({ label, value }: FormulaName): string {
  if (RADIUS.test(label)) return inItsPlace(label, value, 'diameter', R.TWO);
  const put = `half of ${label} was put in, ${inOwnUnit(times(value, R.HALF) ?? value)}`;
  return `${put}, as if the formula asked for the radius; it asks for ${label} itself, ${inOwnUnit(value)}`;
}

function doubled({ label, value }: FormulaName): string {
  if (DIAMETER.test(label)) return inItsPlace(label, value, 'radius', R.HALF);
  const put = `twice ${label} was put in, ${inOwnUnit(times(value, R.TWO) ?? value)}`;
  return RADIUS.test(label)
    ? `${put}, as if the formula asked for the diameter; it asks for ${label} itself, ${inOwnUnit(value)}`
    : `${put}, as if it were the radius; it is the diameter already, ${inOwnUnit(value)}`;
}

/** A diameter in the formula that asks for the radius, as if the formula were right but for a factor of two. */
function inItsPlace(
  label: string,
  value: FormulaName['value'],
  wanted: 'radius' | 'diameter',
  factor: R.Rational,
): string {
  const right = times(value, factor) ?? value;
  return `${label} itself, ${inOwnUnit(value)}, was put in where the ${wanted} belongs, ${inOwnUnit(right)}`;
}
