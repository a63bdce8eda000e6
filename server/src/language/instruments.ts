/** Which scales an instrument is read by: what a block about it usually records. */
export type InstrumentScales = 'vernier' | 'angle vernier' | 'screw' | 'screw with vernier' | 'dial';

/** An instrument of the trade by its name, the other names in use, and what one should know before taking it up. */
export interface Instrument {
  readonly name: string;
  readonly also: readonly string[];
  readonly scales: InstrumentScales;
  /** One sentence for a student, no final stop. */
  readonly meaning: string;
  /** The usual caution, where the instrument or what goes with it can hurt; no final stop. */
  readonly caution: string | null;
}

/** A caution never stands above those who know the place. */
function caution(usual: string): string {
  return `${usual}; the local rules and the teacher in charge come first`;
}

const STOPPED = 'never measure work that turns';

/** The instruments of the trade by name, as people write them. */
export const INSTRUMENTS: readonly Instrument[] = [
  {
    name: 'vernier calipers',
    also: [
      'vernier caliper',
      'vernier callipers',
      'vernier calliper',
      'calipers',
      'callipers',
      'slide calipers',
      'slide callipers',
    ],
    scales: 'vernier',
    meaning: 'two jaws on a divided bar, read by a vernier, for outside and inside sizes',
    caution: caution(`the points of the jaws are sharp, so carry them closed, and ${STOPPED}`),
  },
  {
    name: 'screw gauge',
    also: ['micrometer screw', 'micrometer', 'micrometer screw gauge', 'screw gage', 'outside micrometer'],
    scales: 'screw',
    meaning: 'a screw in a frame, read by a sleeve and a drum, for thin things and diameters',
    caution: caution(`${STOPPED}: stop the machine and wait until it stands`),
  },
  {
    name: 'vernier micrometer',
    also: ['micrometer with vernier'],
    scales: 'screw with vernier',
    meaning: 'a screw gauge with a vernier on its sleeve, which divides the divisions of the drum',
    caution: caution(`${STOPPED}: stop the machine and wait until it stands`),
  },
  {
    name: 'spherometer',
    also: [],
    scales: 'screw',
    meaning:
      'a screw between three legs, for the height of a curved face over a plane, and so for its radius',
    caution: caution('the points of the legs and of the screw are sharp, and thin glass breaks under them'),
  },
  {
    name: 'travelling microscope',
    also: ['traveling microscope', 'vernier microscope'],
    scales: 'vernier',
    meaning: 'a microscope on a divided slide with a vernier, for what no jaw can grip',
    caution: caution('never light it with the sun or a laser, which the lenses gather in the eye'),
  },
  {
    name: 'spectrometer',
    also: [],
    scales: 'angle vernier',
    meaning:
      'a telescope on a divided circle with a vernier, for the angles of light through a prism or a grating',
    caution: caution(
      'its lamps grow hot and some shine ultraviolet, and nobody looks through the telescope at a laser or the sun',
    ),
  },
  {
    name: 'height gauge',
    also: ['vernier height gauge'],
    scales: 'vernier',
    meaning: 'a divided upright with a vernier and a scriber, for heights over a surface plate',
    caution: caution(
      'the scriber is sharp and the column tips over easily, so cover the one and hold the other',
    ),
  },
  {
    name: 'depth gauge',
    also: ['vernier depth gauge'],
    scales: 'vernier',
    meaning: 'a divided rod through a bridge, read by a vernier, for the depth of holes and steps',
    caution: caution(`edges of holes cut, so mind the burrs, and ${STOPPED}`),
  },
  {
    name: 'bevel protractor',
    also: ['vernier bevel protractor', 'vernier protractor'],
    scales: 'angle vernier',
    meaning: 'two blades on a divided circle with a vernier, for the angle between two faces',
    caution: caution(`the ends of the blades are sharp, so mind the fingers, and ${STOPPED}`),
  },
  {
    name: 'theodolite',
    also: [],
    scales: 'angle vernier',
    meaning: 'a telescope on divided circles with verniers, for directions and heights in the open',
    caution: caution(
      'never point the telescope at the sun, nor stand it where people or vehicles pass without a guard',
    ),
  },
  {
    name: 'sextant',
    also: [],
    scales: 'angle vernier',
    meaning: 'two mirrors on a divided arc, for the angle between two things that are seen as one',
    caution: caution('never look at the sun without the dark shades in both ways of its light'),
  },
  {
    name: 'barometer',
    also: ["fortin's barometer", 'mercury barometer'],
    scales: 'vernier',
    meaning: 'a column of mercury beside a divided scale with a vernier, for the pressure of the air',
    caution: caution(
      'mercury and its vapour are poisonous, so keep it upright, open nothing, and report a spill at once',
    ),
  },
  {
    name: 'dial gauge',
    also: ['dial indicator'],
    scales: 'dial',
    meaning: 'a plunger that turns a hand over a dial, for small movements and for how much a wheel runs out',
    caution: caution(
      'turn the work by hand with the drive off, and keep fingers, hair and sleeves out of it',
    ),
  },
];

const byName = new Map(
  INSTRUMENTS.flatMap(instrument =>
    [instrument.name, ...instrument.also].map(word => [word, instrument] as const),
  ),
);

/** The instrument of a name; null for one that the trade's table does not have. */
export function instrumentNamed(text: string): Instrument | null {
  return byName.get(text.trim().toLowerCase().replace(/\s+/g, ' ')) ?? null;
}

export function isInstrument(text: string): boolean {
  return instrumentNamed(text) !== null;
}
