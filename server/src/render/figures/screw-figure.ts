import { paperFor, titleOf, unitName } from './captions.ts';
import { markBefore, markNumber } from './divided-scale.ts';
import type { Drawing, DrawOptions } from './draw-figure.ts';
import { closedDrawn, headingOf, inRows } from './positions.ts';
import { type ScrewPanel, screwPanel } from './screw-panel.ts';
import type { FigureSetting, WorkedWords } from './setting.ts';
import { element, together } from './svg.ts';
import { numberedDivisions } from './thimble.ts';
import { dataOf } from './vernier-figure.ts';
import { textLines } from './worked-marks.ts';

/** A sleeve with its drum; beside it the closed position where the block has a zero check. */
export function drawScrew(setting: FigureSetting, options: DrawOptions): Drawing | null {
  const isWorked = options.style === 'worked';
  const closed = options.small ? [] : setting.closed;
  const rows = inRows(closed.length + 1, options.narrow ? 1 : 2, (at, corner) => {
    const shut = closed[at] ?? null;
    const heading = headingOf(at, closed.length, setting.closedChecks);
    return screwPanel({ setting, stand: shut ?? setting.reading, closed: shut, heading, ...corner }, options);
  });
  const read = rows?.panels.at(-1);
  if (rows === null || read === undefined) return null;
  const { words } = setting;
  const lines = isWorked ? [sumOf(words), words.observed, words.zeroError, words.corrected] : [];
  const shown = lines.filter(line => line !== null);
  return {
    width: Math.max(rows.width, paperFor(shown, rows.last.left + 22)),
    height: rows.height + (shown.length > 0 ? 19 * shown.length + 8 : 0),
    body: together(
      ...rows.panels.slice(0, -1).map(({ body }) => element('g', { class: 'closed' }, body)),
      element('g', { class: 'reading', ...dataOf(setting.reading, isWorked) }, read.body),
      isWorked
        ? element('g', { class: 'results' }, textLines(shown, rows.last.left + 22, rows.height + 14))
        : together(),
    ),
    title: titleOf(setting),
    description: described(setting, closed.length, read, isWorked),
  };
}

/** What a vernier on a screw adds has no dimension line of its own. */
function sumOf({ finest }: WorkedWords): string | null {
  return finest === null || finest === '' ? null : `vernier: ${finest}`;
}

function described(
  { scale, drum, vernier, words, reading, closedChecks }: FigureSetting,
  closed: number,
  { sleeve }: ScrewPanel,
  isWorked: boolean,
): string {
  if (drum === null) return '';
  const first = Math.max(0, markBefore(scale, sleeve.strip.from) + 1);
  const marks = [
    `the sleeve of a screw, its linear scale in ${unitName(scale.unit)}, shown from ${markNumber(scale, first)} on${
      sleeve.hasTwoRows ? ', whole units above the line and halves below it' : ''
    }`,
    `a drum of ${drum.divisions} divisions, numbered every ${numberedDivisions(drum.divisions)}`,
    vernier === null ? null : `a vernier of ${vernier.lines} divisions on the sleeve along the drum`,
    closedDrawn(closed, closedChecks),
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
