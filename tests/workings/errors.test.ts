import { describe, expect, it } from 'vitest';
import { readableLines, workedIn } from './worked-note.ts';

function worked(...lines: readonly string[]): readonly string[] {
  const note = `\`\`\`measurement\n${lines.join('\n')}\n\`\`\`\n`;
  return workedIn(note, subject => subject.kind === 'statistic').map(({ derivation }) =>
    readableLines(derivation),
  );
}

const TUBE = [
  'main scale: 1 mm = 1 MSD',
  'vernier scale: 20 VSD = 19 MSD',
  'closed: zeros coincide',
  '| label | MSR | VC |',
  '|---|---|---|',
  '| outside | 31 mm | 17 |',
  '| inside | 27 mm | 6 |',
  'wall thickness t = (corrected reading of outside - corrected reading of inside)/2',
];

describe('errors of a product of powers', () => {
  it('add up as relative ones, each times its power', () => {
    // Source: the usual rule of school physics, e.g. NCERT, Physics XI, g = 4π²l/T²: Δg/g = Δl/l + 2 ΔT/T, from memory.
    expect(
      worked(
        'l: 99.8 cm ± 0.1 cm',
        'T: 2.005 s ± 0.003 s',
        'g = 4 pi^2 l / T^2',
        'percentage error of g = ?',
      ),
    ).toEqual([
      [
        'Percentage error of g',
        '(in a product or a quotient the relative errors add up, each as many times as its power says)',
        'Δg / g = Δl / l + 2 × ΔT / T',
        'Δl / l = 0.1 cm / 99.8 cm ≈ 0.100 %',
        '2 × ΔT / T = 2 × 0.003 s / 2.005 s ≈ 0.299 %',
        '* percentage error of g = (0.1 cm / 99.8 cm + 2 × 0.003 s / 2.005 s) × 100 % ≈ 0.40 %',
      ].join('\n'),
    ]);
  });

  it('give the absolute error by the value', () => {
    // By hand: 0.1 and 0.2 of 50 cm^2.
    expect(
      worked('p: 10 cm ± 1 cm', 'q: 5 cm ± 1 cm', 'area A = p q', 'absolute error of A = ?')[0],
    ).toContain('* absolute error of A = 50 cm^2 × (1 cm / 10 cm + 1 cm / 5 cm) = 15 cm^2');
  });

  it('need no values where they are recorded in per cent', () => {
    expect(
      worked(
        'm: any mass ± 2 %',
        'd: any length ± 1 %',
        'rho = m / (pi d^3 / 6)',
        'percentage error of rho = ?',
      ),
    ).toEqual([
      [
        'Percentage error of rho',
        '(in a product or a quotient the relative errors add up, each as many times as its power says)',
        'Δrho / rho = Δm / m + 3 × Δd / d',
        '* percentage error of rho = 2 % + 3 × 1 % = 5 %',
      ].join('\n'),
    ]);
  });

  it('with a root in it', () => {
    const [text] = worked(
      'l: any length ± 4 %',
      'c: any number',
      'T = c sqrt(l)',
      'percentage error of T = ?',
    );
    expect(text).toContain('ΔT / T = 1/2 × Δl / l');
    expect(text).toContain('* percentage error of T = 1/2 × 4 % = 2 %');
  });

  it('say what counts as exact', () => {
    const [text] = worked('l: 1.20 m', 'T: 2.18 s ± 0.02 s', 'g = 4 pi^2 l / T^2', 'absolute error of g = ?');
    expect(text).toContain('l was recorded without an error and counts as exact');
  });
});

describe('errors of a sum', () => {
  it('add up, by the least count of each reading', () => {
    expect(worked(...TUBE, 'absolute error of t = ?')).toEqual([
      [
        'Absolute error of t',
        '(each reading may be wrong by the least count)',
        'error of each reading = least count = 0.05 mm',
        '(the errors of a sum add up, and those of a difference as well)',
        'Δt = (Δ(corrected reading of outside) + Δ(corrected reading of inside)) / 2',
        '* absolute error of t = (0.05 mm + 0.05 mm) / 2 = 0.05 mm',
      ].join('\n'),
    ]);
  });

  it('by half the least count, in per cent', () => {
    const [text] = worked('error rule: half the least count', ...TUBE, 'percentage error of t = ?');
    expect(text).toContain('(each reading may be wrong by half the least count)');
    expect(text).toContain('error of each reading = least count / 2 = 0.05 mm / 2 = 0.025 mm');
    // 0.025 / 2.275, by hand
    expect(text).toContain('* percentage error of t = 0.025 mm / 2.275 mm × 100 % ≈ 1.1 %');
  });
});

describe('errors through any formula', () => {
  it('go by the slopes, in a table', () => {
    // By hand: ∂R/∂h = 1/2 - l²/(6h²) = -56.4, twice 0.01 mm in h.
    const [text] = worked(
      'pitch: 1 mm',
      'circular scale: 100 divisions',
      '| label | LSR | CSR |',
      '|---|---|---|',
      '| plate | 0 mm | 14 |',
      '| dish | 2 mm | 63 |',
      'h = observed reading of dish - observed reading of plate',
      'l: 46.0 mm',
      'R = l^2/(6h) + h/2',
      'absolute error of R = ?',
    );
    expect(text).toContain('| observed reading of dish | 0.01 mm | 56.4 | 0.564 mm |');
    expect(text).toContain('ΔR ≈ 0.564 mm + 0.564 mm\n* absolute error of R ≈ 1.1 mm');
  });
});

describe('errors of one value', () => {
  it('as recorded', () => {
    expect(worked('m: 1.06 g ± 0.01 g', 'absolute error of m = ?', 'percentage error of m = ?')).toEqual([
      'Absolute error of m\n(the error of m was recorded with it)\n* absolute error of m = 0.01 g',
      'Percentage error of m\n(the error of m was recorded with it)\n* percentage error of m = 0.01 g / 1.06 g × 100 % ≈ 0.94 %',
    ]);
  });

  it('recorded in per cent', () => {
    expect(worked('U: 50 V ± 2 %', 'absolute error of U = ?', 'percentage error of U = ?')).toEqual([
      'Absolute error of U\n(the error of U was recorded with it)\n* absolute error of U = 2 % × 50 V = 1 V',
      'Percentage error of U\n(the error of U was recorded with it)\n* percentage error of U = 2 %',
    ]);
  });

  it('without an error is exact', () => {
    const [text] = worked('m: 1.06 g', 'absolute error of m = ?');
    expect(text).toContain('counts as exact)\n* absolute error of m = 0 g');
  });

  it('of a list by its rule', () => {
    const [text] = worked(
      'error rule: mean absolute error',
      't: 40.2 s, 39.9 s, 40.0 s, 40.3 s',
      'P = mean of t / 20',
      'absolute error of P = ?',
    );
    expect(text).toContain('* mean absolute error of t = (0.1 + 0.2 + 0.1 + 0.2) s / 4 = 0.6 s / 4 = 0.15 s');
    expect(text).toContain('* absolute error of P = 0.15 s / 20 = 0.0075 s');
  });
});

describe('uncertainties', () => {
  it('of a reading: the least count over √3', () => {
    // Source: GUM (JCGM 100:2008) 4.3.7.
    const [text] = worked(
      'main scale: 1 mm = 1 MSD',
      'vernier scale: 20 VSD = 19 MSD',
      'MSR: 31 mm',
      'VC: 17',
      'standard uncertainty of observed reading = ?',
    );
    expect(text).toContain(
      '* standard uncertainty of observed reading = least count / sqrt(3) = 0.05 mm / sqrt(3) ≈ 0.029 mm',
    );
  });

  it('add up by their squares, and the coverage factor is said', () => {
    // Source: GUM (JCGM 100:2008) 5.1.2 and 6.3; g with 0.1 cm and 0.003 s, by hand 0.0309 m/s^2.
    const [text] = worked(
      'l: 99.8 cm ± 0.1 cm',
      'T: 2.005 s ± 0.003 s',
      'g = 4 pi^2 l / T^2 = 9.80 m/s^2',
      'expanded uncertainty of g = ?',
    );
    expect(text).toContain('u(g) / g = sqrt((u(l) / l)^2 + (2 × u(T) / T)^2)');
    expect(text).toContain(
      '* standard uncertainty of g = 9.80 m/s^2 × sqrt((0.1 cm / 99.8 cm)^2 + (2 × 0.003 s / 2.005 s)^2) ≈ 0.031 m/s^2',
    );
    expect(text).toContain('(no coverage factor is recorded, so it is 2)');
    expect(text).toContain('* expanded uncertainty of g = 2 × 0.031 m/s^2 ≈ 0.062 m/s^2');
  });

  it('of the end gauge', () => {
    // Source: JCGM 100:2008, Annex H.1, from memory: 25, 9.7, 2.9 and 16.6 nm make 32 nm; 93 nm with 2.92.
    const [standard, expanded] = worked(
      'ls: 50 000 623 nm ± 25 nm',
      'd: 215 nm ± 9.7 nm',
      'alpha: 11.5e-6 K^-1',
      'da: 0 K^-1 ± 5.8e-7 K^-1',
      'theta: -0.1 K',
      'dt: 0 K ± 0.029 K',
      'coverage factor: 2.92',
      'l = ls + d - ls (da theta + alpha dt) = 50.000838 mm',
      'standard uncertainty of l = 32 nm',
      'expanded uncertainty of l = 93 nm',
    );
    expect(standard).toContain('u(l) ≈ sqrt((25 nm)^2 + (9.7 nm)^2 + (2.90 nm)^2 + (16.7 nm)^2)');
    expect(standard).toContain('* standard uncertainty of l ≈ 32 nm');
    expect(expanded).toContain('* expanded uncertainty of l = 2.92 × 32 nm ≈ 93 nm');
  });
});

describe('a percentage difference', () => {
  it('is told in the unit of the accepted value', () => {
    // By hand: 9.80077 m/s^2.
    expect(
      worked(
        'l: 99.8 cm',
        'T: 2.005 s',
        'g = 4 pi^2 l / T^2',
        'percentage difference of g from 9.81 m/s^2 = ?',
      )[0],
    ).toContain(
      '* percentage difference of g from 9.81 m/s^2 = |g - 9.81 m/s^2| / 9.81 m/s^2 × 100 % = |9.8008 m/s^2 - 9.81 m/s^2| / 9.81 m/s^2 × 100 % ≈ 0.094 %',
    );
  });
});

it('what is not determined has no working', () => {
  expect(worked('x: 2.1 s, 2.3 s', 'absolute error of x = ?', 'absolute error of y = ?')).toEqual([]);
});
