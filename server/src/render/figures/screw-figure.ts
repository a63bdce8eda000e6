import { titleOf } from './captions.ts';
import { markBefore, markNumber } from './divided-scale.ts';
import type { Drawing, DrawOptions } from './draw-figure.ts';
import { type ScrewPanel, screwPanel } from './screw-panel.ts';
import type { FigureSetting, WorkedWords } from './setting.ts';
import { element, together } from './svg.ts';
import { numberedDivisions } from './thimble.ts';
import { dataOf } from './vernier-figure.ts';
import { textLines } from './worked-marks.ts';

/** A sleeve with its drum; beside it the closed position where the block has a zero check. */
export function drawScrew(setting: FigureSetting, options: DrawOptions): Drawing | null {
  const isWorked = options.style === 'worked';
  const closed = options.small ? null : setting.closed;
  const shut =
    closed === null
      ? null
      : screwPanel({ setting, stand: closed, isClosed: true, heading: 'Closed', left: 0 }, options);
  const left = shut?.width ?? 0;
  const read = screwPanel(
    { setting, stand: setting.reading, isClosed: false, heading: shut === null ? null : 'Reading', left },
    options,
  );
  if (read === null) return null;
  const { words } = setting;
  const lines = isWorked ? [sumOf(words), words.observed, words.zeroError, words.corrected] : [];
  const shown = lines.filter(line => line !== null);
  return {
    width: left + read.width,
    height: read.height + (shown.length > 0 ? 19 * shown.length + 8 : 0),
    body: together(
      shut === null ? together() : element('g', { class: 'closed' }, shut.body),
      element('g', { class: 'reading', ...dataOf(setting.reading, isWorked) }, read.body),
      isWorked
        ? element('g', { class: 'results' }, textLines(lines, left + 22, read.height + 14))
        : together(),
    ),
    title: titleOf(setting),
    description: described(setting, closed !== null, read, isWorked),
  };
}

/** What a vernier on a screw adds has no dimension line of its own. */
function sumOf({ finest }: WorkedWords): string | null {
  return finest === null || finest === '' ? null : `vernier: ${finest}`;
}

function described(
  { scale, drum, vernier, words, reading }: FigureSetting,
  hasClosed: boolean,
  { sleeve }: ScrewPanel,
  isWorked: boolean,
): string {
  if (drum === null) return '';
  const first = Math.max(0, markBefore(scale, sleeve.strip.from) + 1);
  const marks = [
    `the sleeve of a screw, its linear scale in ${scale.unit}, shown from ${markNumber(scale, first)} on${
      sleeve.hasTwoRows ? ', whole units above the line and halves below it' : ''
    }`,
    `a drum of ${drum.divisions} divisions, numbered every ${numberedDivisions(drum.divisions)}`,
    vernier === null ? null : `a vernier of ${vernier.lines} divisions on the sleeve along the drum`,
    hasClosed ? 'beside it the same instrument closed' : null,
  ];
  const [pair] = reading.inLine;
  const answer = isWorked
    ? [
        words.coarse,
        words.fine === '' ? null : `the drum adds ${words.fine}`,
        pair === undefined ? null : `line ${pair.line} of the vernier is in line with a division of the drum`,
        sumOf(words),
        words.observed,
        words.zeroError,
        words.corrected,
      ]
    : [];
  return [...marks, ...answer].filter(part => part !== null && part !== '').join('; ');
}
