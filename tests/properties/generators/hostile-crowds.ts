import { fencedBlock } from './bench-note.ts';
import { hostileBlock, many, READING, SCALES } from './hostile-block.ts';

/** A megabyte in a line. */
export const LONG_LINES: Readonly<Record<string, string>> = {
  'a long name': hostileBlock(`${'a'.repeat(1_000_000)} = 1 mm`, `${'wall '.repeat(200_000)}t: 1 mm`),
  'a long comment': hostileBlock(`least count = 1 mm # ${'why '.repeat(250_000)}`),
  'a long blank': hostileBlock(`least count${' '.repeat(1_000_000)}= 1 mm`, `n:${'\t'.repeat(1_000_000)}`),
  'equals signs': hostileBlock('='.repeat(1_000_000), `least count${' = '.repeat(300_000)}`),
  'a chain of claims': hostileBlock(...SCALES, `least count${' = 0.1 mm'.repeat(100_000)}`),
  colons: hostileBlock(':'.repeat(1_000_000), `least count${' : 1 mm'.repeat(100_000)}`),
  'a long sum': hostileBlock(`q = 1${' + 1'.repeat(250_000)} mm`),
  'a long product': hostileBlock(`q = 2${' × 3'.repeat(250_000)} mm`),
  'words without end': hostileBlock('seat post '.repeat(100_000), `q = ${'a '.repeat(500_000)}`),
  'cells without end': hostileBlock(
    `|${' LSR |'.repeat(150_000)}`,
    `|${'---|'.repeat(150_000)}`,
    `|${' 1 mm |'.repeat(150_000)}`,
  ),
  'bars without end': hostileBlock('|'.repeat(1_000_000)),
  'a list without end': hostileBlock(`T: 1 s${', 1 s'.repeat(200_000)}`, 'mean of T = 2 s'),
  'dollars without end': hostileBlock(`q = ${'$'.repeat(1_000_000)}`, `r = ${'$1$ '.repeat(250_000)}`),
  'stars without end': hostileBlock(
    '*'.repeat(1_000_000),
    `q = ${'**1** '.repeat(150_000)}`,
    '- '.repeat(500_000),
  ),
  'backslashes without end': hostileBlock(
    `q = ${'\\'.repeat(1_000_000)}`,
    `r = ${'\\text{'.repeat(150_000)}`,
  ),
  'primes without end': hostileBlock(`q = 1${"'".repeat(1_000_000)}`, `r = ${'1° 2′ 3″ '.repeat(100_000)}`),
  'units without end': hostileBlock(
    `x: 1 ${'mm '.repeat(300_000)}`,
    `y: 1 mm${'/s'.repeat(400_000)}`,
    `z: 1 mm${'^2'.repeat(400_000)}`,
  ),
  'points without end': hostileBlock(`x: ${'.'.repeat(1_000_000)}`, `${'L.C.'.repeat(250_000)} = 1 mm`),
  'a long block name': fencedBlock(['least count = 1 mm'], 'hub-axle-'.repeat(100_000)),
  'a long reference': hostileBlock(`D: corrected reading${' of plate'.repeat(100_000)}`),
  'open code spans': `${'`` ` ``` '.repeat(100_000)}\n\n${hostileBlock(...READING)}`,
};

/** More of everything than a note ever holds. */
export const CROWDS: Readonly<Record<string, string>> = {
  'ten thousand rows': hostileBlock(
    ...SCALES,
    '| MSR | n | observed reading |',
    '|---|---|---|',
    ...many(10_000, index => `| ${index} mm | ${index % 10} | ${index}.${index % 10} mm |`),
    'mean observed reading = 7 mm',
    'standard deviation = 1 mm',
  ),
  'ten thousand labels': hostileBlock(
    ...SCALES,
    '| label | MSR | n |',
    ...many(10_000, index => `| row ${index} | ${index} mm | 3 |`),
    ...many(500, index => `h${index} = observed reading of row ${index} - observed reading of row 1 = ?`),
  ),
  'ten thousand blocks': many(10_000, index =>
    fencedBlock(['pitch: 1 mm', 'circular scale: 100', 'least count = 0.01 mm'], `b${index}`),
  ).join('\n\n'),
  'ten thousand blocks of one name': many(10_000, () => fencedBlock(['pitch: 1 mm'], 'same')).join('\n\n'),
  'a chain of blocks': many(5_000, index =>
    fencedBlock(index === 0 ? ['x: 1 mm'] : [`x: x of c${index - 1}`, 'q = x + 1 mm'], `c${index}`),
  ).join('\n\n'),
  'a chain of uses': many(5_000, index =>
    fencedBlock(index === 0 ? READING : [`uses: u${index - 1}`, 'observed reading = 7.4 mm'], `u${index}`),
  ).join('\n\n'),
  'a chain of uses, last first': many(5_000, index =>
    fencedBlock(
      index === 4_999 ? READING : [`uses: u${index + 1}`, 'observed reading = 7.4 mm'],
      `u${index}`,
    ),
  ).join('\n\n'),
  'ten thousand claims': hostileBlock(...SCALES, ...many(10_000, index => `least count = 0.${index} mm`)),
  'ten thousand wrong claims that follow': hostileBlock(
    ...READING,
    'least count = 0.2 mm',
    ...many(5_000, () => 'observed reading = 7 mm + 4 × 0.2 mm = 7.8 mm'),
  ),
  'ten thousand quantities': hostileBlock(
    'a0: 1 mm',
    ...many(10_000, index => `a${index + 1} = a${index} + 1 mm = ${index + 2} mm`),
  ),
  'ten thousand scale lines': hostileBlock(
    ...many(10_000, index => `main scale: ${index + 1} mm = ${index + 1} MSD`),
    ...many(10_000, index => `main scale: 1 mm = ${index + 1} MSD`),
  ),
  'ten thousand zero checks': hostileBlock(
    ...READING,
    ...many(10_000, index => `closed: vernier zero right, division ${index % 10}`),
    'zero error = 1 mm',
  ),
  'ten thousand options': hostileBlock(
    'find: least count',
    ...SCALES,
    ...many(10_000, index => `option ${String.fromCharCode(65 + (index % 26))}: ${index} mm`),
    'answer = A',
  ),
  'ten thousand waivers': hostileBlock(
    ...many(10_000, () => 'waive: wrong-value, printed so'),
    ...many(10_000, () => 'error rule: least count'),
  ),
  'ten thousand unreadable lines': hostileBlock(...many(10_000, index => `?? ${index} ,, mm = : | ~ …`)),
  'a quantity built on all others': hostileBlock(
    ...many(300, index => `b${index}: ${index + 1} mm ± 0.1 mm`),
    `q = ${many(300, index => `b${index}`).join(' + ')}`,
    'percentage error of q = 1 %',
    `r = ${many(150, index => `b${index}`).join(' × ')}`,
  ),
};
