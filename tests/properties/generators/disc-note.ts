import { type BenchNote, noteOf } from './bench-note.ts';
import { chance, type Draw, pick, whole } from './draw.ts';
import { type Fraction, fraction, mean, minus, negative, over, times } from './fraction.ts';
import { spellMeasure } from './measure.ts';
import { perRotation, seeScrew } from './physical-screw.ts';
import { seeVernier, type VernierShape } from './physical-vernier.ts';
import {
  CIRCULAR_TERMS,
  drawScrew,
  LINEAR_TERMS,
  linearDivision,
  type Screw,
  spellMark,
  spellScrew,
} from './screw-note.ts';

/** A spherometer's disc that is read, turned through whole and part rotations, and read again. */
export function drawTurnedDisc(draw: Draw): BenchNote {
  const screw = drawScrew(draw, 1, 1);
  const { circular } = screw.shape;
  const initial = whole(draw, 0, circular - 1);
  const divisions = whole(draw, 1, 8 * circular);
  const higher = chance(draw);
  // The disc itself, division by division: what stands at the edge, and how often the first came round again.
  let [shown, rotations] = [initial, 0];
  for (let turned = 0; turned < divisions; turned += 1) {
    shown += higher ? 1 : -1;
    if (shown === circular) shown = 0;
    if (shown < 0) shown = circular - 1;
    if (shown === initial) rotations += 1;
  }
  const records = [
    ...(chance(draw) ? ['instrument: spherometer'] : []),
    ...spellDisc(draw, screw),
    `full rotations: ${shown !== initial && chance(draw) ? `between ${rotations} and ${rotations + 1}` : rotations}`,
    `initial circular reading: ${initial}`,
    `final circular reading: ${shown}`,
    `turned: toward ${higher ? 'higher' : 'lower'} numbers`,
  ];
  const travel = times(over(screw.pitch, fraction(circular)), fraction(divisions));
  return { text: noteOf(draw, records), expected: { 'observed reading': travel } };
}

/** Whole rotations are counted, and the circular scale gives the rest. */
export function drawCountedRotations(draw: Draw): BenchNote {
  const screw = drawScrew(draw, 1, 1);
  const position = screw.shape.perCircular * whole(draw, 0, 9 * screw.shape.circular);
  const seen = seeScrew(screw.shape, position);
  const records = [
    ...spellDisc(draw, screw),
    `full rotations: ${seen.rotations}`,
    `${pick(draw, CIRCULAR_TERMS)}: ${seen.division}`,
  ];
  return { text: noteOf(draw, records), expected: { 'observed reading': placeOf(screw, position) } };
}

/** A dial whose small hand counts the turns of the large one. */
export function drawDialNote(draw: Draw): BenchNote {
  const screw = drawScrew(draw, 1, 1);
  const position = (screw.shape.perCircular / 2) * whole(draw, 0, 18 * screw.shape.circular);
  const seen = seeScrew(screw.shape, position);
  const turns = seen.mark === 1 ? '1 turn' : `${seen.mark} turns`;
  const records = [
    ...(chance(draw) ? ['instrument: dial gauge'] : []),
    ...spellDisc(draw, screw),
    `small hand: ${pick(draw, [turns, spellMark(draw, screw, seen.mark)])}`,
    `large hand: ${seen.division}${seen.beyond > 0 ? '.5' : ''}`,
  ];
  return { text: noteOf(draw, records), expected: { 'observed reading': placeOf(screw, position) } };
}

/** A vernier on a screw: three scales, the drum's division just passed, and the vernier's line in line with a mark of the drum. */
export function drawThreeScales(draw: Draw): BenchNote {
  const linear = pick(draw, [1, 2]);
  const plain = drawScrew(draw, 1, linear);
  const lines = pick(draw, [10, 5, 20, 8]);
  const vernier: VernierShape = { lines, spans: lines - 1, backward: false };
  const circular = 2 * Math.ceil(plain.shape.circular / 2);
  const shape = { circular, perCircular: 2 * lines, perLinear: (2 * lines * circular) / linear };
  const screw: Screw = { ...plain, shape };
  const position = 2 * whole(draw, 0, 6 * circular * lines);
  const seen = seeScrew(shape, position);
  const grain = over(screw.pitch, fraction(perRotation(shape)));
  const errors: Fraction[] = [];
  const closed = chance(draw) ? [] : [drawThreeScaleZero(draw, screw, vernier, grain, errors)];
  const records = [
    ...(chance(draw) ? ['instrument: vernier micrometer'] : []),
    ...spellScrew(draw, screw),
    `vernier scale: ${lines} VSD = ${lines - 1} CSD`,
    `${pick(draw, LINEAR_TERMS.slice(0, 6))}: ${spellMark(draw, screw, seen.mark)}`,
    `${pick(draw, CIRCULAR_TERMS)}: ${seen.division}`,
    `coinciding division: ${pick(draw, seeVernier(vernier, position).inLine).line}`,
    ...closed,
  ];
  const reading = times(fraction(position), grain);
  const error = errors.length > 0 ? mean(errors) : null;
  return {
    text: noteOf(draw, records),
    expected: {
      'observed reading': reading,
      'least count': times(fraction(2), grain),
      ...(error && {
        'zero error': error,
        'zero correction': negative(error),
        'corrected reading': minus(reading, error),
      }),
    },
  };
}

function drawThreeScaleZero(
  draw: Draw,
  screw: Screw,
  vernier: VernierShape,
  grain: Fraction,
  errors: Fraction[],
): string {
  const most = perRotation(screw.shape) / 2 - 1;
  const position = 2 * (whole(draw, 0, 2 * most) - most);
  errors.push(times(fraction(position), grain));
  if (position === 0) return 'closed: zeros coincide';
  const side = position > 0 ? 'below' : 'above';
  const { division } = seeScrew(screw.shape, position);
  const { line } = pick(draw, seeVernier(vernier, position).inLine);
  return `closed: circular zero ${side} the line, division ${division}, vernier division ${line}`;
}

/** Scales of a disc or a dial, which has no linear scale of its own. */
function spellDisc(draw: Draw, screw: Screw): string[] {
  const { circular } = screw.shape;
  const division = spellMeasure(draw, over(screw.pitch, fraction(circular)), screw.measure);
  const pitch = spellMeasure(draw, screw.pitch, screw.measure);
  return pick(draw, [
    [`pitch: ${pitch}`, `circular scale: ${circular} divisions`],
    [`screw: 1 rotation = ${pitch}`, `circular scale: ${circular} divisions`],
    [`circular scale: ${circular} divisions`, `circular scale: 1 CSD = ${division}`],
    [`least count: ${division}`, `circular scale: ${circular} divisions`],
  ]);
}

function placeOf(screw: Screw, position: number): Fraction {
  return times(linearDivision(screw), over(fraction(position), fraction(perRotation(screw.shape))));
}
