/** The instruments of the trade by name, as people write them. */
const INSTRUMENTS: readonly (readonly [string, readonly string[]])[] = [
  [
    'vernier calipers',
    [
      'vernier caliper',
      'vernier callipers',
      'vernier calliper',
      'calipers',
      'callipers',
      'slide calipers',
      'slide callipers',
    ],
  ],
  [
    'screw gauge',
    ['micrometer screw', 'micrometer', 'micrometer screw gauge', 'screw gage', 'outside micrometer'],
  ],
  ['vernier micrometer', ['micrometer with vernier']],
  ['spherometer', []],
  ['travelling microscope', ['traveling microscope', 'vernier microscope']],
  ['spectrometer', []],
  ['height gauge', ['vernier height gauge']],
  ['depth gauge', ['vernier depth gauge']],
  ['bevel protractor', ['vernier bevel protractor', 'vernier protractor']],
  ['theodolite', []],
  ['sextant', []],
  ['barometer', ["fortin's barometer", 'mercury barometer']],
  ['dial gauge', ['dial indicator']],
];

const byName = new Map(
  INSTRUMENTS.flatMap(([name, also]) => [name, ...also].map(word => [word, name] as const)),
);

/** The full name of an instrument; null for a name that the trade's table does not have. */
export function findInstrument(text: string): string | null {
  return byName.get(text.trim().toLowerCase().replace(/\s+/g, ' ')) ?? null;
}

export function isInstrument(text: string): boolean {
  return findInstrument(text) !== null;
}
