import { describe, expect, it } from 'vitest';
import { fixAllEdits } from '../../server/src/actions/fix-all.ts';
import { withEdits } from '../../server/src/actions/settled-edits.ts';

const note = (...lines: readonly string[]): string => ['```measurement', ...lines, '```', ''].join('\n');
const mended = (text: string): string => withEdits(text, fixAllEdits(text));

describe('all sure fixes together', () => {
  it.each([
    ['a scale with a word that nobody knows', 'vernier scale: 25 VSD = 24 MSDs'],
    ['a sentence about the scale', '25 VSD coincide with 24 MSD'],
    ['a scale without its end', 'vernier scale: 25 VSD ='],
    ['digits of another alphabet', 'vernier scale: ２５ VSD = ２４ MSD'],
  ])('leave a right least count alone below %s', (_, line) => {
    const text = note('main scale: 1 cm = 10 MSD', line, 'LC = 0.04 mm');
    expect(mended(text)).toBe(text);
  });

  it.each([
    ['a claim whose name cannot be read', 'A/2 of Young & Co = 2.5e12 N/m^2'],
    ['a record whose name has a comma', 'Diameter, of the sphere: 2.45 cm'],
    ['a record with a longer name than any', 'one two three four five six seven: 2.45 cm'],
    ['a record of a word that nobody knows', 'D: diamter of the bobbin'],
    ['a value without a name', '2.45 cm'],
    ['a record without its sign', 'main scale reading 2.45 cm'],
  ])('make no comment of %s', (_, line) => {
    expect(mended(note(line))).toBe(note(line));
  });

  it.each([
    'A student measures the spoke with the old gauge',
    'What is its diameter?',
    'A student measures the spoke in the workshop twice: what does she find?',
  ])('make a comment of %s', line => {
    expect(mended(note(line))).toBe(note(`# ${line}`));
  });

  it('mend a name, and then what the record of that name settles', () => {
    const lines = (name: string, reading: string): string =>
      note(
        'instrument: screw gauge',
        'pitch: 0.5 mm',
        'circular scale: 50 divisions',
        'linear scale reading: 4.5 mm',
        `${name}: 31`,
        `observed reading = ${reading}`,
      );
    expect(mended(lines('circular scale reding', '4.81 mm'))).toBe(
      lines('circular scale reading', '4.81 mm'),
    );
    expect(mended(lines('circular scale reding', '4.5 mm'))).toBe(lines('circular scale reading', '4.81 mm'));
  });

  it('leave a right reading alone where its drum is not recorded at all', () => {
    const lines = (name: string): string =>
      note(
        'instrument: screw gauge',
        'pitch: 0.5 mm',
        'linear scale: 1 mm = 2 LSD',
        'linear scale reading: 4.5 mm',
        `${name}: 31`,
        'observed reading = 4.81 mm',
      );
    expect(mended(lines('circular scale reding'))).toBe(lines('circular scale reading'));
  });

  it('write no value while a line of the block cannot be read', () => {
    const text = note(
      'main scale: 1 mm = 1 MSD',
      'vernier scale: 20 VSD = 19 MSD',
      'vernier coinciding division: 5',
      'LC = 0.06 mm',
    );
    expect(mended(text)).toBe(text);
  });

  it('make no record of a claim whose record is misspelt', () => {
    const text = note(
      'main scale: 1 mm = 1 MSD',
      'vernier scale: 20 VSD = 19 MSD',
      'clossed: vernier zero right, division 3',
      'zero error = 0.10 mm',
    );
    expect(mended(text)).toBe(text);
  });

  it.each([
    'waive: stated-precison, printed so',
    'waive: stated-precision',
    'waiv: stated-precision, printed so',
  ])('keep what %s means', waiver => {
    const text = note(
      'main scale: 1 mm = 1 MSD',
      'vernier scale: 20 VSD = 19 MSD',
      'main scale reading: 23 mm',
      'coinciding division: 5',
      waiver,
      'observed reading = 23.250 mm',
    );
    expect(mended(text)).toBe(text);
  });
});
