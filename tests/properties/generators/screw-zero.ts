import { type Draw, pick, whole } from './draw.ts';
import { type Fraction, fraction, NOUGHT, times } from './fraction.ts';
import { type ScrewShape, seeScrew } from './physical-screw.ts';
import type { DrawnZero } from './vernier-zero.ts';

/** Turns the closed screw to where it truly stops, within one rotation of zero, once or several times. */
export function drawScrewZero(draw: Draw, shape: ScrewShape, grain: Fraction): DrawnZero {
  const checks = Array.from({ length: whole(draw, 0, 3) === 3 ? whole(draw, 2, 4) : 1 }, () =>
    drawCheck(draw, shape, grain),
  );
  return { lines: checks.map(check => check.line), errors: checks.map(check => check.error) };
}

function drawCheck(draw: Draw, shape: ScrewShape, grain: Fraction) {
  const term = pick(draw, ['closed', 'at zero']);
  const most = shape.circular - 1;
  const steps = whole(draw, 0, 2 * most) - most;
  const error = times(fraction(steps * shape.perCircular), grain);
  if (steps === 0) return { line: `${term}: zeros coincide`, error: NOUGHT };
  const { division } = seeScrew(shape, steps * shape.perCircular);
  const side = steps > 0 ? 'below' : 'above';
  const count = Math.abs(steps);
  const divisions = count === 1 ? 'division' : 'divisions';
  const ways = [
    `circular zero ${side} the line, division ${division}`,
    `circular zero ${count} ${divisions} ${side} the line`,
    `${count} ${divisions} ${side} the line`,
    `linear zero ${steps > 0 ? 'visible' : 'hidden'}, division ${division}`,
    ...(2 * count < shape.circular ? [`linear zero barely visible, division ${division}`] : []),
  ];
  return { line: `${term}: ${pick(draw, ways)}`, error };
}
