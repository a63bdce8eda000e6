import { chance, type Draw, pick, whole } from './draw.ts';
import {
  atPlaces,
  decimalText,
  type Fraction,
  firstPlace,
  fraction,
  isSame,
  minus,
  negative,
  over,
  plus,
  readFraction,
  size,
  times,
  toPower,
} from './fraction.ts';
import { type SlipCase, swapDigits } from './slip-case.ts';
import { PI } from './worked-derived.ts';

export type DerivedSlip =
  | 'radius-for-diameter'
  | 'power-left-out'
  | 'errors-subtracted'
  | 'rounded-twice'
  | 'cut-off'
  | 'digits-swapped'
  | 'sign-slip';

/** A quantity worked out from others with the slip made once; null where it comes to the right value after all. */
export function drawDerivedSlip(draw: Draw, slip: DerivedSlip): SlipCase | null {
  switch (slip) {
    case 'radius-for-diameter':
      return drawRadius(draw);
    case 'power-left-out':
      return drawPowers(draw, slip);
    case 'errors-subtracted':
      return chance(draw) ? drawPowers(draw, slip) : drawDifference(draw);
    case 'rounded-twice':
      return drawSum(draw, slip, whole(draw, 46, 49));
    case 'cut-off':
      return drawSum(draw, slip, whole(draw, 60, 99));
    case 'digits-swapped':
      return drawSum(draw, slip, 0);
    case 'sign-slip':
      return drawSign(draw);
  }
}

const hundredths = (count: number) => fraction(count, 100);

function caseOf(
  slip: string,
  records: readonly string[],
  left: string,
  first: readonly string[],
  wrong: Fraction,
  right: Fraction,
  places: number,
  unit: string,
  others: SlipCase['others'] = [],
): SlipCase | null {
  const stated = atPlaces(wrong, places);
  if (isSame(stated, atPlaces(right, places)) || stated.top === 0n) return null;
  const link = `${decimalText(stated, places)} ${unit}`;
  return {
    lines: [...records, `${left} = ${[...first, link].join(' = ')}`],
    link,
    slip,
    stated,
    right,
    places,
    others,
  };
}

/** Radius and diameter mistaken for each other in a formula that rests on the diameter. */
function drawRadius(draw: Draw): SlipCase | null {
  const diameter = hundredths(whole(draw, 300, 2500));
  const [words, formula, factor, power] = pick(draw, [
    ['volume v', 'pi D^3 / 6', over(PI, fraction(6)), 3],
    ['section A', 'pi D^2 / 4', over(PI, fraction(4)), 2],
    ['circumference c', 'pi D', PI, 1],
  ] as const);
  const value = times(factor, toPower(diameter, power));
  const wrong = times(value, toPower(fraction(2), pick(draw, [-power, power])));
  const error = times(value, fraction(power, 200), over(fraction(1), diameter));
  const places = Math.max(0, firstPlace(error));
  const unit = power === 1 ? 'mm' : `mm^${power}`;
  return caseOf(
    'radius-for-diameter',
    [`D: ${decimalText(diameter, 2)} mm`],
    words,
    [formula],
    wrong,
    value,
    places,
    unit,
  );
}

/** The percentage error of m/D³ or m·D²: a power forgotten, or the parts taken from each other. */
function drawPowers(draw: Draw, slip: 'power-left-out' | 'errors-subtracted'): SlipCase | null {
  const mass = hundredths(whole(draw, 500, 4000));
  const diameter = hundredths(whole(draw, 300, 2500));
  const [massError, lengthError] = [hundredths(whole(draw, 1, 9)), hundredths(whole(draw, 1, 9))];
  const power = pick(draw, [2, 3]);
  const percent = (error: Fraction, of: Fraction) => times(over(error, of), fraction(100));
  const [m, d] = [percent(massError, mass), percent(lengthError, diameter)];
  const right = plus(m, times(fraction(power), d));
  const leftOut = plus(m, d);
  const subtracted = size(minus(m, times(fraction(power), d)));
  const wrong = slip === 'power-left-out' ? leftOut : subtracted;
  if (wrong.top === 0n) return null;
  const records = [
    `m: ${decimalText(mass, 2)} g ± ${decimalText(massError, 2)} g`,
    `D: ${decimalText(diameter, 2)} mm ± ${decimalText(lengthError, 2)} mm`,
    `ratio Q = m / D^${power}`,
  ];
  const others: SlipCase['others'] = [
    ['power-left-out', leftOut],
    ['errors-subtracted', subtracted],
    ['errors-subtracted', minus(m, times(fraction(power), d))],
    ['errors-subtracted', size(minus(m, d))],
  ];
  return caseOf(slip, records, 'percentage error of Q', [], wrong, right, firstPlace(wrong) + 1, '%', others);
}

function drawDifference(draw: Draw): SlipCase | null {
  const [a, b] = [whole(draw, 1500, 3000), whole(draw, 300, 1400)].map(hundredths) as [Fraction, Fraction];
  const [first, second] = [whole(draw, 1, 9), whole(draw, 1, 9)].map(hundredths) as [Fraction, Fraction];
  const records = [
    `a: ${decimalText(a, 2)} mm ± ${decimalText(first, 2)} mm`,
    `b: ${decimalText(b, 2)} mm ± ${decimalText(second, 2)} mm`,
    'gap w = a - b',
  ];
  const wrong = size(minus(first, second));
  return caseOf('errors-subtracted', records, 'absolute error of w', [], wrong, plus(first, second), 2, 'mm');
}

/** A sum with two digits too many, `rest` hundredths of its last stated place. */
function drawSum(
  draw: Draw,
  slip: 'rounded-twice' | 'cut-off' | 'digits-swapped',
  rest: number,
): SlipCase | null {
  const total = fraction(whole(draw, 41, 99) * 100 + rest, 1000);
  const a = fraction(whole(draw, 1000, 3000), 1000);
  const b = minus(total, a);
  const records = [`a: ${decimalText(a, 3)} cm`, `b: ${decimalText(b, 3)} cm`];
  const once = atPlaces(total, 1);
  const put = (wrong: Fraction) => caseOf(slip, records, 'total length w', ['a + b'], wrong, total, 1, 'cm');
  switch (slip) {
    case 'rounded-twice':
      return put(atPlaces(atPlaces(total, 2), 1));
    case 'cut-off':
      return put(atPlaces(total, 1, 'cut'));
    case 'digits-swapped': {
      const swapped = swapDigits(draw, decimalText(once, 1));
      const number = swapped === null ? null : readFraction(swapped);
      return number === null ? null : put(number);
    }
  }
}

function drawSign(draw: Draw): SlipCase | null {
  const [a, b] = [whole(draw, 1500, 3000), whole(draw, 300, 1400)].map(hundredths) as [Fraction, Fraction];
  const gap = minus(a, b);
  const records = [`a: ${decimalText(a, 2)} mm`, `b: ${decimalText(b, 2)} mm`];
  return caseOf('sign-slip', records, 'gap w', ['a - b'], negative(gap), gap, 2, 'mm');
}
