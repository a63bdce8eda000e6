import { titleOf } from './captions.ts';
import { markNumber, numberedLines } from './divided-scale.ts';
import type { Drawing, DrawOptions } from './draw-figure.ts';
import type { FigureSetting, Stand } from './setting.ts';
import { numbersOn } from './straight-scale.ts';
import { element, type Svg, together } from './svg.ts';
import { type Panel, vernierPanel } from './vernier-panel.ts';
import { textLines } from './worked-marks.ts';

const WIDE = 720;
const NARROW = 480;

/** A main scale with its vernier below it; beside it the closed position where the block has a zero check. */
export function drawVernier(setting: FigureSetting, options: DrawOptions): Drawing | null {
  const { scale, vernier, reading, words } = setting;
  if (vernier === null) return null;
  const closed = options.small ? null : setting.closed;
  const width = options.small || closed !== null ? NARROW : WIDE;
  const read = vernierPanel(
    {
      scale,
      vernier,
      stand: reading,
      words,
      isClosed: false,
      heading: closed === null ? null : 'Reading',
      left: closed === null ? 0 : NARROW,
      width,
    },
    options,
  );
  const shut =
    closed === null
      ? null
      : vernierPanel(
          { scale, vernier, stand: closed, words, isClosed: true, heading: 'Closed', left: 0, width },
          options,
        );
  const under = Math.max(read.height, shut?.height ?? 0);
  const isWorked = options.style === 'worked';
  const lines = isWorked ? [words.observed, words.zeroError, words.corrected] : [];
  const shown = lines.filter(line => line !== null);
  return {
    width: closed === null ? width : 2 * NARROW,
    height: under + (shown.length > 0 ? 19 * shown.length + 8 : 0),
    body: together(
      shut === null ? together() : element('g', { class: 'closed' }, shut.body),
      element('g', { class: 'reading', ...dataOf(reading, isWorked) }, read.body),
      isWorked ? results(lines, shut === null ? 22 : NARROW + 22, under + 14) : together(),
    ),
    title: titleOf(setting),
    description: described(setting, closed, read, isWorked),
  };
}

function results(lines: readonly (string | null)[], x: number, y: number): Svg {
  return element('g', { class: 'results' }, textLines(lines, x, y));
}

/** What programs may want to know, in the worked style only. */
export function dataOf(stand: Stand, isWorked: boolean): Record<string, string> {
  if (!isWorked) return {};
  return {
    'data-in-line': stand.inLine.map(({ line }) => line).join(' '),
    'data-reading': stand.position.toFraction(),
  };
}

function described(
  setting: FigureSetting,
  closed: FigureSetting['closed'],
  { window, isMagnified }: Panel,
  isWorked: boolean,
): string {
  const { scale, vernier, words, reading } = setting;
  if (vernier === null) return '';
  const { strip, marking } = window;
  const numbered = numbersOn(scale, strip, marking);
  const [first, last] = [numbered[0], numbered.at(-1)].map(index => markNumber(scale, index ?? 0));
  const unit = scale.unit === '°' ? 'degrees' : scale.unit;
  const marks = [
    `main scale in ${unit}, numbered from ${first} to ${last} with ${marking.number} divisions from number to number`,
    `below it a vernier of ${vernier.lines} divisions, numbered every ${numberedLines(vernier.lines)}${vernier.backward ? ', against the main scale' : ''}`,
    isMagnified ? 'a part of both magnified' : null,
    closed === null ? null : 'beside it the same instrument closed',
  ];
  const [pair] = reading.inLine;
  const answer = !isWorked
    ? []
    : [
        pair === undefined
          ? reading.between === null
            ? null
            : `lines ${reading.between} and ${reading.between + 1} are equally off their marks`
          : `line ${pair.line} of the vernier is in line with a mark`,
        words.coarse,
        words.fine === '' ? null : `the vernier adds ${words.fine}`,
        words.observed,
        words.zeroError,
        words.corrected,
      ];
  return [...marks, ...answer].filter(part => part !== null && part !== '').join('; ');
}
