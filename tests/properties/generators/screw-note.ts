import { type BenchNote, noteOf } from './bench-note.ts';
import { chance, type Draw, pick, whole } from './draw.ts';
import { type Fraction, fraction, mean, minus, negative, over, times } from './fraction.ts';
import { inBase, type Measure, spellMeasure, type Unit } from './measure.ts';
import { perRotation, positionsThatLook, type ScrewShape, seeScrew } from './physical-screw.ts';
import { drawScrewZero } from './screw-zero.ts';

/** `turns` rotations pass `linear` linear divisions; one of them advances by the pitch. */
export interface Screw {
  readonly measure: Measure;
  readonly pitch: Fraction;
  readonly turns: number;
  readonly linear: number;
  readonly shape: ScrewShape;
}

const PITCHES: readonly (readonly [Measure, Unit, number, number])[] = [
  ['metric', 'mm', 1, 2],
  ['metric', 'mm', 1, 1],
  ['metric', 'mm', 1, 4],
  ['metric', 'mm', 2, 1],
  ['metric', 'cm', 1, 20],
  ['inch', 'in', 1, 40],
  ['inch', 'in', 1, 20],
  ['angle', 'deg', 1, 1],
  ['angle', 'deg', 1, 2],
];

/** A random screw on which `turns` rotations pass `linear` linear divisions. */
export function drawScrew(draw: Draw, turns: number, linear: number): Screw {
  const [measure, unit, top, bottom] = pick(draw, PITCHES);
  const circular = whole(draw, 0, 3) < 3 ? pick(draw, [50, 100, 25, 20, 200]) : whole(draw, 2, 120);
  return {
    measure,
    pitch: inBase(fraction(top, bottom), unit),
    turns,
    linear,
    shape: { circular, perCircular: 2 * linear, perLinear: 2 * circular * turns },
  };
}

/** What must come out of a screw's block: the reading, or the word that more than one fits. */
export interface ScrewNote extends BenchNote {
  readonly ambiguous: boolean;
}

/** A random screw turned to a random place, and the block that a tutor writes. */
export function drawScrewNote(draw: Draw, turns: number, linear: number): ScrewNote {
  const screw = drawScrew(draw, turns, linear);
  const { shape } = screw;
  const last = 12 * Math.max(perRotation(shape), shape.perLinear);
  const half = shape.perCircular / 2;
  const position = half * whole(draw, 0, Math.floor(last / half) - 1);
  const seen = seeScrew(shape, position);
  const ambiguous = positionsThatLook(shape, seen, last + shape.perLinear).length > 1;
  const grain = over(screw.pitch, fraction(perRotation(shape)));
  const zero = !ambiguous && chance(draw) ? drawScrewZero(draw, shape, grain) : null;
  const records = [
    ...spellScrew(draw, screw),
    `${pick(draw, LINEAR_TERMS)}: ${spellMark(draw, screw, seen.mark)}`,
    `${pick(draw, CIRCULAR_TERMS)}: ${spellDivision(draw, seen.division, seen.beyond > 0)}`,
    ...(zero?.lines ?? []),
  ];
  const reading = times(fraction(position), grain);
  const error = zero && mean(zero.errors);
  const expected = {
    'least count': over(screw.pitch, fraction(shape.circular)),
    pitch: screw.pitch,
    ...(!ambiguous && { 'observed reading': reading }),
    ...(error && {
      'zero error': error,
      'zero correction': negative(error),
      'corrected reading': minus(reading, error),
    }),
  };
  return { text: noteOf(draw, records), expected, ambiguous };
}

export const LINEAR_TERMS = [
  'linear scale reading',
  'LSR',
  'pitch scale reading',
  'PSR',
  'sleeve reading',
  'barrel reading',
  'MSR',
] as const;

export const CIRCULAR_TERMS = [
  'circular scale reading',
  'CSR',
  'head scale reading',
  'HSR',
  'thimble reading',
] as const;

function spellDivision(draw: Draw, division: number, half: boolean): string {
  return half ? pick(draw, [`${division}.5`, `between ${division} and ${division + 1}`]) : `${division}`;
}

export function linearDivision(screw: Screw): Fraction {
  return over(times(screw.pitch, fraction(screw.turns)), fraction(screw.linear));
}

export function spellMark(draw: Draw, screw: Screw, mark: number): string {
  const length = spellMeasure(draw, times(fraction(mark), linearDivision(screw)), screw.measure);
  return length === null || whole(draw, 0, 3) === 3 ? `${mark} ${pick(draw, ['LSD', 'divisions'])}` : length;
}

/** The scales of a screw in one of the ways that settle them all. */
export function spellScrew(draw: Draw, screw: Screw): string[] {
  const { circular } = screw.shape;
  const drum = pick(draw, [
    `circular scale: ${circular} divisions`,
    `circular scale: ${circular} CSD = 1 rotation`,
    `circular scale: 1 rotation = ${circular} CSD`,
    `circular scale: ${circular}`,
  ]);
  const pitch = spellPitch(draw, screw);
  const plain = screw.turns === 1 && screw.linear === 1;
  const linear = spellLinear(draw, screw);
  return [drum, ...(plain ? pick(draw, [[pitch], [linear], [pitch, linear]]) : [pitch, linear])];
}

function spellPitch(draw: Draw, screw: Screw): string {
  const rotations = pick(draw, [1, 2, 5, 10]);
  const advance = spellMeasure(draw, times(screw.pitch, fraction(rotations)), screw.measure);
  const one = spellMeasure(draw, screw.pitch, screw.measure);
  return pick(draw, [
    `pitch: ${one}`,
    `screw: ${rotations} ${rotations === 1 ? 'rotation' : 'rotations'} = ${advance}`,
    `screw: ${rotations} ${rotations === 1 ? 'turn' : 'turns'} = ${advance}`,
  ]);
}

function spellLinear(draw: Draw, screw: Screw): string {
  const divisions = pick(draw, [1, 2, 10]);
  const length = spellMeasure(draw, times(linearDivision(screw), fraction(divisions)), screw.measure);
  return pick(draw, [
    `linear scale: ${length} = ${divisions} LSD`,
    `linear scale: ${divisions} LSD = ${length}`,
    `linear scale: ${divisions} PSD = ${length}`,
  ]);
}
