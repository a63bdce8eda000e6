import { noteOf } from './bench-note.ts';
import { type Draw, pick, whole } from './draw.ts';
import { fraction, plus, times } from './fraction.ts';
import { spellMeasure } from './measure.ts';
import { positionsThatLook, type ScrewShape } from './physical-screw.ts';
import { drawScrew, spellMark, spellScrew } from './screw-note.ts';
import { drawMainScale, mainDivision, spellScales } from './vernier-note.ts';
import { drawShape } from './vernier-shape.ts';

/** A main scale reading between the marks, or a division that the vernier does not have. */
export function drawImpossibleVernier(draw: Draw): string {
  const scale = drawMainScale(draw);
  const shape = drawShape(draw, pick(draw, ['direct', 'retrograde-forward', 'extended', 'odd']));
  const division = mainDivision(scale);
  const mark = fraction(whole(draw, 0, 60));
  const offMark = pick(draw, [true, false]);
  const place = offMark ? plus(mark, fraction(whole(draw, 1, 4), 5)) : mark;
  const line = offMark ? whole(draw, 0, shape.lines - 1) : shape.lines + whole(draw, 1, 40);
  return noteOf(draw, [
    ...spellScales(draw, scale, shape),
    `main scale reading: ${spellMeasure(draw, times(place, division), scale.measure)}`,
    `coinciding division: ${line}`,
  ]);
}

/** A linear mark and a circular division that never stand there together, or a division that the drum does not have. */
export function drawImpossibleScrew(draw: Draw): string {
  const screw = drawScrew(draw, 1, pick(draw, [2, 4]));
  const { shape } = screw;
  const mark = whole(draw, 0, 20);
  const beyondDrum = pick(draw, [false, true]);
  const division = beyondDrum ? shape.circular + whole(draw, 1, 40) : strangeDivision(draw, shape, mark);
  return noteOf(draw, [
    ...spellScrew(draw, screw),
    `LSR: ${spellMark(draw, screw, mark)}`,
    `CSR: ${division}`,
  ]);
}

function strangeDivision(draw: Draw, shape: ScrewShape, mark: number): number {
  const stands = (division: number) =>
    positionsThatLook(shape, { mark, rotations: 0, division, beyond: 0 }, (mark + 2) * shape.perLinear)
      .length > 0;
  let division = whole(draw, 0, shape.circular - 1);
  while (stands(division)) division = (division + 1) % shape.circular;
  return division;
}
