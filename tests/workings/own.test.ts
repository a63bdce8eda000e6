import { describe, expect, it } from 'vitest';
import type { Subject } from '../../server/src/language/measurement.ts';
import { readableLines, workedIn } from './worked-note.ts';

function worked(note: string, name?: string): readonly string[] {
  const is = (subject: Subject): boolean =>
    subject.kind === 'own' && (name === undefined || subject.name === name);
  return workedIn(note, is).map(({ derivation }) => readableLines(derivation));
}

function block(...lines: readonly string[]): string {
  return `\`\`\`measurement\n${lines.join('\n')}\n\`\`\`\n`;
}

// All values worked out by hand.
describe('a quantity of one’s own', () => {
  it('follows from its formula, the numbers in it, and the result', () => {
    expect(worked(block('m: 50.10 g', 'v: 6.71 cm^3', 'density rho = m / v'))).toEqual([
      'Density rho\n* rho = m / v = 50.10 g / 6.71 cm^3 ≈ 7.466 g/cm^3',
    ]);
  });

  it('names the readings of its rows', () => {
    const note = block(
      'pitch: 1 mm',
      'circular scale: 100 divisions',
      '| label | LSR | CSR |',
      '|---|---|---|',
      '| plate | 0 mm | 14 |',
      '| dish | 2 mm | 63 |',
      'sagitta h = observed reading of dish - observed reading of plate',
      'leg distance l: 46.0 mm',
      'radius of curvature R = l^2/(6h) + h/2 = 142.9 mm',
    );
    expect(worked(note)).toEqual([
      'Sagitta h\n* h = observed reading of dish - observed reading of plate = 2.63 mm - 0.14 mm = 2.49 mm',
      'Radius of curvature R\n* R = l^2 / (6 × h) + h / 2 = (46.0 mm)^2 / (6 × 2.49 mm) + 2.49 mm / 2 ≈ 142.9 mm',
    ]);
  });

  it('written in the unit of its block’s own line, with its places', () => {
    expect(worked(block('l: 99.8 cm', 'T: 2.005 s', 'g = 4 pi^2 l / T^2 = 9.80 m/s^2'))).toEqual([
      'g\n* g = 4 pi^2 l / T^2 = 4 pi^2 × 99.8 cm / (2.005 s)^2 ≈ 9.80 m/s^2',
    ]);
  });

  it('a rounded value that is put in has a guard place where the result needs it', () => {
    const [, rho] = worked(
      block('D: 9.5 mm', 'm: 10.00 g', 'v = pi D^3 / 6 = 0.45 cm^3', 'rho = m / v = 22 g/cm^3'),
    );
    expect(rho).toBe('rho\n* rho = m / v = 10.00 g / 0.45 cm^3 ≈ 22 g/cm^3');
    const [, finer] = worked(
      block('D: 9.50 mm', 'm: 10.00 g', 'v = pi D^3 / 6 = 0.45 cm^3', 'rho = m / v = 22.3 g/cm^3'),
    );
    expect(finer).toBe('rho\n* rho = m / v = 10.00 g / 0.449 cm^3 ≈ 22.3 g/cm^3');
  });

  it('typed in mere numbers gets the names of what they stand for', () => {
    expect(
      worked(block('m: 50.1 g', 'v: 6.71 cm^3', 'density rho = 50.1 g / 6.71 cm^3 = 7.47 g/cm^3')),
    ).toEqual(['Density rho\n* rho = m / v = 50.1 g / 6.71 cm^3 ≈ 7.47 g/cm^3']);
  });

  it('that is a mean of a list shows the mean', () => {
    expect(worked(block('a: 49.8 mm, 50.2 mm, 50.0 mm', 'leg distance l = mean of a'))).toEqual([
      'Leg distance l\n* l = mean of a = (49.8 + 50.2 + 50.0) mm / 3 = 150.0 mm / 3 = 50.0 mm',
    ]);
  });

  it('in letters is brought to its simplest form', () => {
    expect(worked(block('m: any mass', 'd: any length', 'rho = m / (pi d^3 / 6)', 'k = m / d'))).toEqual([
      'rho\n* rho = m / (pi d^3 / 6) = 6m/(pi d^3)',
      'k\n* k = m / d',
    ]);
  });

  it('that is stated several times over is divided', () => {
    expect(worked(block('D: 38°', '2A = 180° - D'))).toEqual([
      'A\n* A = (180° - D) / 2 = (180° - 38°) / 2 = 71°',
    ]);
  });

  it('of an arc is a length', () => {
    const [arc] = worked(block('l: 172.5 mm', 'theta: 30 deg', 'arc a = l theta'));
    // 172.5 mm × π/6
    expect(arc).toContain('≈ 90.321 mm');
  });

  it('leaves the numbers out where a unit could be a name: V and volts', () => {
    expect(worked(block('V: 100 V', 'I: 10 A', 'resistance R = V / I = 10 Ω'))).toEqual([
      'Resistance R\n* R = V / I = 10 Ω',
    ]);
  });

  it('that is recorded, a letter or undetermined has no working', () => {
    expect(worked(block('m: 50.1 g', 'm = 50.1 g', 'x = m / y = 3'))).toEqual([]);
  });

  it('of another block has no line that could be claimed here', () => {
    const note = [
      '```measurement ball',
      'm: 50.1 g',
      'v: 6.71 cm^3',
      'rho = m / v',
      '```',
      '',
      '```measurement q',
      'find: rho of ball',
      'option A: 7.47 g/cm^3',
      '```',
    ].join('\n');
    expect(worked(note)[1]).toMatch(/^Rho of ball\nrho = m|^rho of ball\nrho = m/);
  });
});

it('a definition by mere numbers rests on the lines above it, whichever is asked for first', () => {
  const note = block(
    'l: 40.2 mm',
    'd: 12.45 mm',
    'radius r = 12.45 mm / 2 = 6.225 mm',
    'area a = 3.14 × (6.225 mm)^2 = 122 mm^2',
    'volume v = 122 mm^2 × 40.2 mm = 4.9 cm^3',
  );
  // 3.14 × 6.225² × 40.2 = 4891.4, by hand; not 122 × 40.2 = 4904.4.
  expect(worked(note, 'v')[0]).toContain('* v = a × l = ');
});
