/** One instrument of each kind of scales, with a note that is drawn beside its text. */
export const DRAWN_INSTRUMENTS: ReadonlyMap<string, string> = new Map([
  [
    'vernier calipers',
    note(
      'crank-pin',
      'instrument: vernier calipers',
      'main scale: 1 mm = 1 MSD',
      'vernier scale: 10 VSD = 9 MSD',
      'closed: vernier zero right, division 2',
      'main scale reading: 24 mm',
      'coinciding division: 6',
    ),
  ],
  [
    'screw gauge',
    note(
      'spoke',
      'instrument: screw gauge',
      'screw: 2 rotations = 1 mm',
      'linear scale: 1 mm = 2 LSD',
      'circular scale: 50 divisions',
      'linear scale reading: 6.5 mm',
      'circular scale reading: 34',
    ),
  ],
  [
    'vernier micrometer',
    note(
      'arbor',
      'instrument: vernier micrometer',
      'screw: 2 rotations = 1 mm',
      'linear scale: 1 mm = 2 LSD',
      'circular scale: 50 divisions',
      'vernier scale: 10 VSD = 9 CSD',
      'linear scale reading: 1.5 mm',
      'circular scale reading: 27',
      'coinciding division: 6',
    ),
  ],
  [
    'spherometer',
    note(
      'watch-glass',
      'instrument: spherometer',
      'pitch: 1 mm',
      'circular scale: 100 divisions',
      'linear scale reading: 2 mm',
      'circular scale reading: 63',
    ),
  ],
  [
    'bevel protractor',
    note(
      'dovetail',
      'instrument: bevel protractor',
      'main scale: 1° = 1 MSD',
      'vernier scale: 12 VSD = 23 MSD',
      'main scale reading: 72°',
      'coinciding division: 9',
    ),
  ],
  [
    'height gauge',
    note(
      'bracket',
      'instrument: height gauge',
      'main scale: 1 mm = 1 MSD',
      'vernier scale: 20 VSD = 19 MSD',
      'main scale reading: 47 mm',
      'coinciding division: 13',
    ),
  ],
  [
    'dial gauge',
    note(
      'rim',
      'instrument: dial gauge',
      'screw: 1 rotation = 1 mm',
      'circular scale: 100 divisions',
      'full rotations: 3',
      'circular scale reading: 58',
    ),
  ],
]);

/** The first block of the README. */
export const README_NOTE = note(
  'seat-post',
  'main scale: 1 mm = 1 MSD',
  'vernier scale: 20 VSD = 19 MSD',
  'closed: vernier zero left, division 17',
  'main scale reading: 27 mm',
  'coinciding division: 4',
);

function note(name: string, ...lines: readonly string[]): string {
  return [`\`\`\`measurement ${name}`, ...lines, '```', ''].join('\n');
}
