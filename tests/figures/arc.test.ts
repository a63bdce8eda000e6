import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drawSeed } from '../support/seed.ts';
import { drawingOf, groupOf, isWellFormed, TELLING, textsOf } from './arc-drawing.ts';
import { readArc } from './arc-reader.ts';

drawSeed('figures/arc');

/** A vernier of `lines` divisions over `spans` main ones, each `division` seconds of arc wide. */
interface Arc {
  readonly instrument: string;
  readonly division: number;
  readonly lines: number;
  readonly spans: number;
  readonly backward: boolean;
}

// Common practice, no source: the divisions that such instruments have; retrograde ones to see that none is special.
const ARCS: readonly Arc[] = [
  { instrument: 'bevel protractor', division: 3600, lines: 12, spans: 23, backward: false },
  { instrument: 'bevel protractor', division: 3600, lines: 12, spans: 11, backward: false },
  { instrument: 'theodolite', division: 600, lines: 60, spans: 59, backward: false },
  { instrument: 'theodolite', division: 1200, lines: 60, spans: 59, backward: false },
  { instrument: 'spectrometer', division: 1800, lines: 30, spans: 29, backward: false },
  { instrument: 'spectrometer', division: 1800, lines: 30, spans: 31, backward: true },
  { instrument: 'spectrometer', division: 1200, lines: 40, spans: 39, backward: false },
  { instrument: 'sextant', division: 600, lines: 60, spans: 59, backward: false },
  { instrument: 'sextant', division: 900, lines: 15, spans: 16, backward: false },
  { instrument: 'sextant', division: 600, lines: 10, spans: 9, backward: false },
];

const CIRCLE = 1_296_000;

/** A setting with the mark before nought counted in divisions and a line in line. */
const settings = fc
  .record({ arc: fc.constantFrom(...ARCS), mark: fc.nat(), line: fc.nat() })
  .map(({ arc, mark, line }) => ({ arc, mark: mark % (CIRCLE / 4 / arc.division), line: line % arc.lines }));

function angle(seconds: number): string {
  const [size, sign] = [Math.abs(seconds), seconds < 0 ? '-' : ''];
  return `${sign}${Math.floor(size / 3600)}° ${Math.floor((size % 3600) / 60)}′ ${size % 60}″`;
}

function noteLines({ instrument, division, lines, spans, backward }: Arc): readonly string[] {
  return [
    `instrument: ${instrument}`,
    `main scale: 1 MSD = ${division / 60}′`,
    `vernier scale: ${lines} VSD = ${spans} MSD`,
    ...(backward ? ['vernier runs: backward'] : []),
  ];
}

/** By hand: line k stands k·V past nought (numbered backward: before it) and meets a mark. */
function readingOf({ division, lines, spans, backward }: Arc, mark: number, line: number): number {
  const along = (line * spans * division) / lines;
  const past = (((backward ? along : -along) % division) + division) % division;
  return mark * division + past;
}

describe('an arc read back from its drawing', () => {
  test('has the line in line and the mark before nought that make the reading', () => {
    fc.assert(
      fc.property(settings, fc.constantFrom('wide', 'narrow', 'small'), ({ arc, mark, line }, size) => {
        const { svg } = drawingOf([...noteLines(arc), `MSR: ${angle(mark * arc.division)}`, `VC: ${line}`], {
          small: size === 'small',
          narrow: size === 'narrow',
        });
        const seen = readArc(groupOf(svg, 'reading'), arc.division, arc.lines);
        const reading = readingOf(arc, mark, line);
        const expected = line === 0 ? [0, arc.lines] : [line];
        expect(seen.inLine.map(pair => pair.line).sort((a, b) => a - b)).toEqual(expected);
        for (const off of seen.off.values()) expect(Math.abs(off)).toBeGreaterThan(0.998);
        expect(seen.before).toBe(mark * arc.division);
        for (const pair of seen.inLine) {
          const along = (pair.line * arc.spans * arc.division) / arc.lines;
          const read = pair.mark + (arc.backward ? along : -along);
          expect((read - reading) % CIRCLE).toBe(0);
        }
        expect(seen.step).toBeGreaterThan(size === 'wide' ? 0.7 : 0.5);
      }),
      { numRuns: 40 },
    );
  });

  test('has a number of the main scale beside the zero of the vernier, however narrow it is', () => {
    for (const size of ['small', 'narrow'] as const) {
      for (const [lines, spans] of [
        [20, 39],
        [12, 23],
        [24, 47],
        [30, 59],
      ] as const) {
        const arc = { instrument: 'theodolite', division: 3600, lines, spans, backward: false };
        for (let mark = 20; mark < 30; mark++) {
          const { svg } = drawingOf([...noteLines(arc), `MSR: ${mark}°`, `VC: ${lines - 3}`], {
            [size]: true,
          });
          const pieces = svg.split('class="scale"').slice(1);
          const zero = pieces.find(piece =>
            textsOf(piece, 'vernier-numbers').some(({ text }) => text === '0'),
          );
          expect(textsOf(zero ?? '', 'scale-numbers'), `${size} ${lines} ${mark}`).not.toEqual([]);
        }
      }
    }
  });

  test('shows two neighbours equally off in opposite ways where they share the coincidence', () => {
    fc.assert(
      fc.property(settings, ({ arc, mark, line }) => {
        fc.pre(!arc.backward && arc.spans < arc.lines && line + 1 < arc.lines);
        const { svg } = drawingOf([
          ...noteLines(arc),
          `MSR: ${angle(mark * arc.division)}`,
          `VC: between ${line} and ${line + 1}`,
        ]);
        const seen = readArc(groupOf(svg, 'reading'), arc.division, arc.lines);
        expect(seen.inLine).toEqual([]);
        expect(seen.off.get(line)! + seen.off.get(line + 1)!).toBeCloseTo(0, 3);
        expect(Math.abs(seen.off.get(line)!)).toBeCloseTo(0.5, 3);
        expect(seen.before).toBe(mark * arc.division);
      }),
      { numRuns: 15 },
    );
  });

  test('shows the closed sextant on and off the arc', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 59 }), fc.boolean(), (count, isOn) => {
        const arc = ARCS[7]!;
        const { svg } = drawingOf([
          ...noteLines(arc),
          `closed: ${count} divisions ${isOn ? 'on' : 'off'} the arc`,
          'MSR: 47° 20′',
          'VC: 31',
        ]);
        const seen = readArc(groupOf(svg, 'closed'), 600, 60);
        // Ten seconds to a line; off the arc the line counts from the far end.
        expect(seen.inLine).toEqual([{ line: isOn ? count : 60 - count, mark: expect.any(Number) }]);
        expect(seen.before).toBe(isOn ? 0 : -600);
      }),
      { numRuns: 10 },
    );
  });
});

describe('what is said of an arc', () => {
  test('the question tells neither the line in line nor the reading', () => {
    fc.assert(
      fc.property(settings, ({ arc, mark, line }) => {
        const figure = drawingOf([...noteLines(arc), `MSR: ${angle(mark * arc.division)}`, `VC: ${line}`]);
        expect(figure.svg).not.toMatch(TELLING);
        expect(figure.alternative).not.toMatch(TELLING);
        // Nothing but the kind of scales, whatever the reading.
        const other = drawingOf([...noteLines(arc), 'MSR: 30°', `VC: ${Math.floor(arc.lines * 0.6)}`]);
        const kind = (text: string) =>
          text.replace('; two stretches of both are drawn, torn off between them', '');
        expect(kind(figure.alternative)).toBe(kind(other.alternative));
        expect(isWellFormed(figure.svg)).toBe(true);
      }),
      { numRuns: 20 },
    );
  });

  test('the worked one tells both, well-formed, the same bytes each time', () => {
    const lines = [...noteLines(ARCS[0]!), 'MSR: 72°', 'VC: 9'];
    const worked = drawingOf(lines, { style: 'worked' });
    expect(worked.svg).toContain('line 9 in line');
    expect(worked.svg).toContain('observed reading = 72° 45′');
    expect(worked.svg).toContain('9 × 5′ = 45′');
    expect(worked.alternative).toContain('observed reading = 72° 45′');
    expect(isWellFormed(worked.svg)).toBe(true);
    expect(drawingOf(lines, { style: 'worked' }).svg).toBe(worked.svg);
  });

  test('the worked one has the same marks as the question', () => {
    const lines = [...noteLines(ARCS[2]!), 'MSR: 359° 50′', 'VC: 7'];
    for (const style of ['question', 'worked'] as const) {
      const seen = readArc(groupOf(drawingOf(lines, { style }).svg, 'reading'), 600, 60);
      expect(seen.inLine.map(({ line }) => line)).toEqual([7]);
      expect((seen.before + CIRCLE) % CIRCLE).toBe(CIRCLE - 600);
    }
  });
});
