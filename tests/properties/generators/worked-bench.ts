import { chance, type Draw, pick, whole } from './draw.ts';
import { decimalText, type Fraction, fraction, mean, minus, over, plus, size, times } from './fraction.ts';
import { claim } from './spelling.ts';
import { errorNumber, placesFor } from './worked-derived.ts';
import { maybe, some } from './worked-vernier.ts';

/** A spherometer set on a plate and on a dish, and the curvature that follows (R = l²/(6h) + h/2, the sphere through three feet). */
export function drawWorkedSpherometer(draw: Draw, name: string): string[] {
  const circular = pick(draw, [100, 50]);
  const leastCount = fraction(1, circular);
  const plate = whole(draw, 0, circular - 1);
  const dish = plate + whole(draw, (3 * circular) / 2, 5 * circular);
  const height = times(leastCount, fraction(dish - plate));
  const leg = fraction(whole(draw, 300, 600), 10);
  const radius = plus(over(times(leg, leg), times(fraction(6), height)), over(height, fraction(2)));
  const byLeg = times(over(leg, times(fraction(3), height)), fraction(1, 20));
  const slope = minus(fraction(1, 2), over(times(leg, leg), times(fraction(6), height, height)));
  const error = plus(byLeg, times(size(slope), fraction(2), leastCount));
  const row = (label: string, steps: number) => {
    const reading = decimalText(times(leastCount, fraction(steps)), 2);
    return `| ${label} | ${Math.floor(steps / circular)} mm | ${steps % circular} | ${chance(draw) ? '?' : `${reading} mm`} |`;
  };
  return [
    `\`\`\`measurement ${name}`,
    'instrument: spherometer',
    'pitch: 1 mm',
    `circular scale: ${circular} divisions`,
    '| label | LSR | CSR | observed reading |',
    '|-------|-----|-----|------------------|',
    row('plate', plate),
    row('dish', dish),
    ...claim(draw, 'sagitta h', [
      'observed reading of dish - observed reading of plate',
      ...some(draw, [
        `${decimalText(times(leastCount, fraction(dish)), 2)} mm - ${decimalText(times(leastCount, fraction(plate)), 2)} mm`,
      ]),
      `${decimalText(height, 2)} mm`,
    ]),
    `leg distance l: ${decimalText(leg, 1)} mm`,
    ...claim(draw, 'radius of curvature R', [
      'l^2/(6h) + h/2',
      `${decimalText(radius, placesFor(draw, error))} mm`,
    ]),
    '```',
  ];
}

/** Repeated times of a pendulum: their mean and how far they scatter. */
export function drawWorkedList(draw: Draw, name: string): string[] {
  const base = whole(draw, 150, 260);
  const values = Array.from({ length: whole(draw, 2, 8) }, () => fraction(base + whole(draw, 0, 12), 100));
  const middle = mean(values);
  const deviations = values.map(value => size(minus(value, middle)));
  const squares = plus(...deviations.map(value => times(value, value)));
  const spread = rootOf(over(squares, fraction(values.length - 1)));
  const scattered = squares.top > 0n;
  const list = values.map(value => `${decimalText(value, 2)} s`).join(', ');
  return [
    `\`\`\`measurement ${name}`,
    `T: ${list}`,
    ...claim(draw, pick(draw, ['mean of T', 'Mean T']), [`${decimalText(middle, 2 + whole(draw, 0, 1))} s`]),
    ...(scattered
      ? [
          ...maybe(draw, () =>
            claim(draw, 'mean absolute error of T', [`${errorNumber(draw, mean(deviations))} s`]),
          ),
          ...maybe(draw, () => claim(draw, 'standard deviation of T', [`${errorNumber(draw, spread)} s`])),
        ]
      : []),
    '```',
  ];
}

/** A square root to thirty places, by whole numbers (Newton's iteration). */
export function rootOf(value: Fraction): Fraction {
  const scale = 10n ** 30n;
  const target = (value.top * scale * scale) / value.bottom;
  if (target === 0n) return fraction(0);
  let guess = target;
  for (let next = (guess + 1n) / 2n; next < guess; next = (guess + target / guess) / 2n) guess = next;
  return fraction(guess, scale);
}
