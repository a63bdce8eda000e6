/** A whole block about an instrument, ready to be filled in: what stands in `⟨⟩` is an example, to be typed over. */
export interface BlockSnippet {
  readonly instrument: string;
  readonly lines: readonly string[];
}

const LENGTH_READING = ['main scale reading: ⟨24 mm⟩', 'coinciding division: ⟨6⟩'];

function lengthVernier(instrument: string, vernier: string, closed: string): BlockSnippet {
  return {
    instrument,
    lines: [
      `instrument: ${instrument}`,
      'main scale: ⟨1 mm = 1 MSD⟩',
      `vernier scale: ⟨${vernier}⟩`,
      'least count = ?',
      `closed: ⟨${closed}⟩`,
      'zero error = ?',
      ...LENGTH_READING,
      'observed reading = ?',
      'corrected reading = ?',
    ],
  };
}

const MILLIMETRE_SCREW = [
  'screw: ⟨2 rotations = 1 mm⟩',
  'linear scale: ⟨1 mm = 2 LSD⟩',
  'circular scale: ⟨50 divisions⟩',
];

/**
 * A block for every instrument of the trade. With its places as they stand it is a right block, and it stays one as
 * they are filled in: whatever follows from them is asked for, not stated.
 */
export const BLOCK_SNIPPETS: readonly BlockSnippet[] = [
  lengthVernier('vernier calipers', '10 VSD = 9 MSD', 'vernier zero right, division 3'),
  {
    instrument: 'screw gauge',
    lines: [
      'instrument: screw gauge',
      ...MILLIMETRE_SCREW,
      'pitch = ?',
      'least count = ?',
      'closed: ⟨circular zero above the line, division 47⟩',
      'zero error = ?',
      'linear scale reading: ⟨6.5 mm⟩',
      'circular scale reading: ⟨34⟩',
      'observed reading = ?',
      'corrected reading = ?',
    ],
  },
  {
    instrument: 'vernier micrometer',
    lines: [
      'instrument: vernier micrometer',
      ...MILLIMETRE_SCREW,
      'vernier scale: ⟨10 VSD = 9 CSD⟩',
      'least count = ?',
      'closed: ⟨zeros coincide⟩',
      'zero error = ?',
      'linear scale reading: ⟨1.5 mm⟩',
      'circular scale reading: ⟨27⟩',
      'coinciding division: ⟨6⟩',
      'observed reading = ?',
      'corrected reading = ?',
    ],
  },
  {
    instrument: 'spherometer',
    lines: [
      'instrument: spherometer',
      'pitch: ⟨1 mm⟩',
      'circular scale: ⟨100 divisions⟩',
      'least count = ?',
      '| label | LSR | CSR | observed reading |',
      '|-------|-----|-----|------------------|',
      '| plate | ⟨0 mm⟩ | ⟨14⟩ | ? |',
      '| glass | ⟨2 mm⟩ | ⟨63⟩ | ? |',
      'sagitta h = observed reading of glass - observed reading of plate = ?',
      'leg distance l: ⟨46.0 mm⟩',
      'radius of curvature R = l^2/(6h) + h/2 = ?',
    ],
  },
  {
    instrument: 'travelling microscope',
    lines: [
      'instrument: travelling microscope',
      'main scale: ⟨1 mm = 2 MSD⟩',
      'vernier scale: ⟨50 VSD = 49 MSD⟩',
      'least count = ?',
      '| label | MSR | coinciding division | observed reading |',
      '|-------|-----|---------------------|------------------|',
      '| left  | ⟨42.5 mm⟩ | ⟨18⟩ | ? |',
      '| right | ⟨44.5 mm⟩ | ⟨23⟩ | ? |',
      'bore b = observed reading of right - observed reading of left = ?',
    ],
  },
  {
    instrument: 'spectrometer',
    lines: [
      'instrument: spectrometer',
      'main scale: ⟨1° = 2 MSD⟩',
      'vernier scale: ⟨30 VSD = 29 MSD⟩',
      'least count = ?',
      '| label | MSR | coinciding division | observed reading |',
      '|-------|-----|---------------------|------------------|',
      "| left  | ⟨121° 30'⟩ | ⟨12⟩ | ? |",
      "| right | ⟨1° 30'⟩ | ⟨8⟩ | ? |",
      'angle A = (observed reading of left - observed reading of right)/2 = ?',
    ],
  },
  lengthVernier('height gauge', '50 VSD = 49 MSD', 'zeros coincide'),
  lengthVernier('depth gauge', '20 VSD = 19 MSD', 'vernier zero right, division 1'),
  {
    instrument: 'bevel protractor',
    lines: [
      'instrument: bevel protractor',
      'main scale: ⟨1° = 1 MSD⟩',
      'vernier scale: ⟨12 VSD = 23 MSD⟩',
      'least count = ?',
      'main scale reading: ⟨72°⟩',
      'coinciding division: ⟨9⟩',
      'observed reading = ?',
    ],
  },
  {
    instrument: 'theodolite',
    lines: [
      'instrument: theodolite',
      "main scale: ⟨1 MSD = 10'⟩",
      'vernier scale: ⟨60 VSD = 59 MSD⟩',
      'least count = ?',
      "main scale reading: ⟨12° 40'⟩",
      'coinciding division: ⟨23⟩',
      'observed reading = ?',
    ],
  },
  {
    instrument: 'sextant',
    lines: [
      'instrument: sextant',
      "main scale: ⟨1 MSD = 10'⟩",
      'vernier scale: ⟨60 VSD = 59 MSD⟩',
      'least count = ?',
      "closed: ⟨4' on the arc⟩",
      'zero error = ?',
      "main scale reading: ⟨47° 20'⟩",
      'coinciding division: ⟨31⟩',
      'observed reading = ?',
      'corrected reading = ?',
    ],
  },
  {
    instrument: 'barometer',
    lines: [
      'instrument: barometer',
      'main scale: ⟨1 mm = 1 MSD⟩',
      'vernier scale: ⟨10 VSD = 9 MSD⟩',
      'least count = ?',
      'main scale reading: ⟨751 mm⟩',
      'coinciding division: ⟨4⟩',
      'observed reading = ?',
    ],
  },
  {
    instrument: 'dial gauge',
    lines: [
      'instrument: dial gauge',
      'screw: ⟨1 rotation = 1 mm⟩',
      'circular scale: ⟨100 divisions⟩',
      'least count = ?',
      '| label | full rotations | circular scale reading | observed reading |',
      '|-------|----------------|------------------------|------------------|',
      '| low   | ⟨3⟩ | ⟨12⟩ | ? |',
      '| high  | ⟨3⟩ | ⟨58⟩ | ? |',
      'runout r = observed reading of high - observed reading of low = ?',
    ],
  },
];

/** The lines of a block as a snippet, its places numbered from 2 on: the first is the block's name. */
export function snippetLines({ lines }: BlockSnippet): readonly string[] {
  let place = 1;
  return lines.map(line =>
    line.replace(/⟨([^⟩]*)⟩/g, (_, example: string) => {
      place += 1;
      return `\${${place}:${example}}`;
    }),
  );
}
