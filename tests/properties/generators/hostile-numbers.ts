import { HUGE, hostileBlock, many, NINES, SCALES } from './hostile-block.ts';

const DEEP = 20_000;

/** Claims and records whose numbers would fill the machine if they were worked out. */
export const NUMBERS: Readonly<Record<string, string>> = {
  'power of a million': hostileBlock('q = 2^1000000', 'least count = 10^1000000 mm'),
  'tower of powers': hostileBlock('q = 9^9^9^9^9', 'r = 2^2^2^2^2^2^2^2', 's = (1/3)^99999'),
  'power of a root': hostileBlock(
    'x: 2 mm',
    'q = sqrt(x)^1000000',
    'r = sqrt(sqrt(sqrt(x)))^3333',
    's = x^(1/1000001)',
  ),
  'power of letters': hostileBlock(
    'a: any length',
    'b: any length',
    'c: any mass',
    'Z = (a + b)^900',
    'q = (a + b + a b + 1)^60',
  ),
  'product of sums': hostileBlock(
    'a: any number',
    'b: any number',
    'c: any number',
    'd: any number',
    `Z = ${many(60, index => `(a + ${index} b + c + d^${index})`).join(' ')}`,
    `Q = ${many(40, index => `1/(a + ${index} b + c)`).join(' + ')}`,
  ),
  'exponents in numbers': hostileBlock(
    'x: 1e1000000 mm',
    'y: 1e-999999 mm',
    'z: 2.5 × 10^1000000 mm',
    'q = x + y + z',
  ),
  'exponent with an error': hostileBlock(
    'x: 1e300 mm ± 1e-300 mm',
    'q = x^50',
    'percentage error of q = 1 %',
  ),
  'a number of a million digits': hostileBlock(`x: ${'7'.repeat(1_000_000)} mm`, 'least count = 1 mm'),
  'a fraction of many digits': hostileBlock(`x: 1.${'3'.repeat(200_000)} mm`, 'q = x^20'),
  'grouped digits without end': hostileBlock(`x: 1${' 000'.repeat(200_000)} mm`),
  'functions of large angles': hostileBlock(
    'x: 1e50 deg',
    'q = sin(x) + tan(1e60) + cos(10^40)',
    'r = tan(90 deg)',
    's = arcsin(2)',
  ),
  'multiplied by itself': hostileBlock(
    'a1: 1.234567 mm',
    ...many(30, index => `a${index + 2} = a${index + 1} × a${index + 1}`),
  ),
  'added to itself': hostileBlock(
    'a1: 1 mm',
    ...many(2000, index => `a${index + 2} = a${index + 1} + a${index + 1}`),
  ),
  'over nought': hostileBlock('x: 0 mm', 'q = 1/x', 'r = 0^-1', 's = mod(5, 0)', 't1 = 0/0', 'u = x/x'),
};

/** Scales that no workshop could divide. */
export const DIVISIONS: Readonly<Record<string, string>> = {
  'too many divisions': hostileBlock(
    'main scale: 1 mm = 1 MSD',
    `vernier scale: ${HUGE} VSD = ${NINES} MSD`,
    'MSR: 7 mm',
    `n: ${NINES}`,
  ),
  'ten million divisions': hostileBlock(
    'main scale: 1 mm = 1 MSD',
    'vernier scale: 10000000 VSD = 7777777 MSD',
    'MSR: 7 mm',
    'n: 5000001',
  ),
  'powers of divisions': hostileBlock(
    'main scale: 1 mm = 1 MSD',
    'vernier scale: 10^30 VSD = (10^30 - 1) MSD',
    'least count = 1 mm',
  ),
  'too many on the drum': hostileBlock(
    'pitch: 1 mm',
    `circular scale: ${HUGE} divisions`,
    'LSR: 3 mm',
    'CSR: 12',
  ),
  'too many rotations': hostileBlock(
    'screw: 1 rotation = 1 mm',
    `linear scale: ${NINES} mm = 1 LSD`,
    'circular scale: 50',
    'LSR: 0 mm',
    'CSR: 4',
  ),
  'far too many rotations to a mark': hostileBlock(
    'screw: 999999 rotations = 1 mm',
    'linear scale: 1 mm = 1 LSD',
    'circular scale: 50',
    'LSR: 4 mm',
    'CSR: 4',
  ),
  'no divisions': hostileBlock(
    'main scale: 0 mm = 0 MSD',
    'vernier scale: 0 VSD = 0 MSD',
    'MSR: 0 mm',
    'n: 0',
    'least count = 0 mm',
  ),
  'a length without divisions': hostileBlock(
    'main scale: 1 mm = 0 MSD',
    'vernier scale: 10 VSD = 0 MSD',
    'MSR: 1 mm',
    'n: 3',
  ),
  'fewer than none': hostileBlock(
    'main scale: 1 mm = -1 MSD',
    'vernier scale: -10 VSD = 9 MSD',
    'MSR: -7 mm',
    'n: -4',
    'least count = ?',
  ),
  'a drum without divisions': hostileBlock(
    'pitch: 0 mm',
    'circular scale: 0 divisions',
    'LSR: 0 mm',
    'CSR: 0',
    'closed: circular zero above the line, division 0',
  ),
  'a drum of less than none': hostileBlock(
    'pitch: -1 mm',
    'circular scale: -50 divisions',
    'LSR: -3 mm',
    'CSR: -12',
    'least count = ?',
  ),
  'half a division': hostileBlock(
    'main scale: 1 mm = 1/3 MSD',
    'vernier scale: 2.5 VSD = 9/7 MSD',
    'MSR: 9 mm',
    'n: 1.5',
    'n: 2/3',
  ),
  'scales that go round': hostileBlock(
    'main scale: 1 MSD = 1 VSD',
    'vernier scale: 1 VSD = 1 MSD',
    'MSR: 3 MSD',
    'n: 1',
    'least count = ?',
  ),
  'nothing between two marks': hostileBlock(
    ...SCALES,
    'MSR: between 7 mm and 7 mm',
    'n: between 4 and 4',
    'observed reading = ?',
  ),
  'marks far apart': hostileBlock(
    'MSR: between 1 mm and 1e50 mm',
    'vernier scale: 10 VSD = 9 MSD',
    `n: between ${NINES} and ${HUGE}`,
  ),
};

/** Brackets and signs one inside the other, far deeper than anybody writes. */
export const NESTING: Readonly<Record<string, string>> = {
  'open brackets': hostileBlock(`q = ${'('.repeat(DEEP)}`),
  'closed brackets': hostileBlock(`q = ${'('.repeat(DEEP)}1 mm${')'.repeat(DEEP)}`),
  'only closing brackets': hostileBlock(`q = ${')'.repeat(DEEP)}`),
  roots: hostileBlock(`q = ${'sqrt('.repeat(DEEP)}2${')'.repeat(DEEP)}`),
  'typeset fractions': hostileBlock(`q = $${'\\frac{1}{'.repeat(DEEP)}2${'}'.repeat(DEEP)}$`),
  'typeset roots, unclosed': hostileBlock(`q = $${'\\sqrt{'.repeat(DEEP)}$`),
  'signs before signs': hostileBlock(`q = ${'-'.repeat(DEEP)}1 mm`, `r = ${'- '.repeat(DEEP)}1 mm`),
  'powers of powers': hostileBlock(`q = ${'2^'.repeat(DEEP)}2`, `r = ${'2^-'.repeat(DEEP)}2`),
  bars: hostileBlock(`q = ${'|'.repeat(DEEP)}1${'|'.repeat(DEEP)}`),
  'means of means': hostileBlock(`q = ${'mean(1, '.repeat(DEEP)}2${')'.repeat(DEEP)}`),
  'subscripts of subscripts': hostileBlock(`q = m${'_{a'.repeat(DEEP)}${'}'.repeat(DEEP)}`),
};
