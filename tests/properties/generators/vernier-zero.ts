import { type Draw, pick, whole } from './draw.ts';
import { type Fraction, fraction, NOUGHT, over, size, times } from './fraction.ts';
import { type Measure, spellMeasure } from './measure.ts';
import { grainsOfMain, seeVernier, smallestStep, type VernierShape } from './physical-vernier.ts';

/** The closed instrument, looked at once or several times: the lines that say so, and where the zero truly stood. */
export interface DrawnZero {
  readonly lines: readonly string[];
  readonly errors: readonly Fraction[];
}

/** Lays the closed vernier out within one main division of the main zero, and writes what is seen. */
export function drawVernierZero(
  draw: Draw,
  shape: VernierShape,
  division: Fraction,
  measure: Measure,
): DrawnZero {
  const checks = Array.from({ length: whole(draw, 0, 3) === 3 ? whole(draw, 2, 4) : 1 }, () =>
    drawCheck(draw, shape, division, measure),
  );
  return { lines: checks.map(check => check.line), errors: checks.map(check => check.error) };
}

function drawCheck(draw: Draw, shape: VernierShape, division: Fraction, measure: Measure) {
  const term = pick(draw, ['closed', 'at zero']);
  const step = smallestStep(shape);
  const most = grainsOfMain(shape) / step - 1;
  const steps = whole(draw, 0, 2 * most) - most;
  const grains = step * steps;
  const error = over(times(fraction(grains), division), fraction(grainsOfMain(shape)));
  if (steps === 0) return { line: `${term}: zeros coincide`, error: NOUGHT };
  const angle =
    measure === 'angle' && whole(draw, 0, 3) === 3 ? spellMeasure(draw, size(error), measure) : null;
  if (angle !== null) return { line: `${term}: ${angle} ${steps > 0 ? 'on' : 'off'} the arc`, error };
  const side = steps > 0 ? 'right' : 'left';
  const line = pick(draw, seeVernier(shape, grains).inLine).line;
  const seen = pick(draw, [`division ${line}`, `division ${shape.lines - line} from the far end`]);
  return { line: `${term}: vernier zero ${side}, ${seen}`, error };
}
