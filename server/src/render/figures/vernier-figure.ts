import { listed, paperFor, titleOf, toldOfVernier, unitName } from './captions.ts';
import { markNumber } from './divided-scale.ts';
import type { Drawing, DrawOptions } from './draw-figure.ts';
import { closedDrawn, headingOf, inRows } from './positions.ts';
import type { FigureSetting, Stand } from './setting.ts';
import { numbersOn } from './straight-scale.ts';
import { element, type Svg, together } from './svg.ts';
import { uprightPanel } from './upright-panel.ts';
import { type Panel, vernierPanel } from './vernier-panel.ts';
import { textLines } from './worked-marks.ts';

/** How far a scale is drawn that lies, alone and beside another one. */
const WIDE = 720;
const NARROW = 480;
/** The same of one that stands upright, and of several that stand one below the other. */
const TALL = 540;
const MIDDLE = 380;
const SHORT = 260;

/**
 * A main scale with its vernier below it, or upright with the vernier beside it; before the reading the closed
 * positions where the block has zero checks.
 */
export function drawVernier(setting: FigureSetting, options: DrawOptions): Drawing | null {
  const { scale, vernier, reading, words, isUpright, closedChecks } = setting;
  if (vernier === null) return null;
  const closed = options.small ? [] : setting.closed;
  const isNarrow = options.small || options.narrow || closed.length > 0;
  const tall = options.narrow && closed.length > 0 ? MIDDLE : TALL;
  const length = isUpright ? (options.small ? SHORT : tall) : isNarrow ? NARROW : WIDE;
  const draw = isUpright ? uprightPanel : vernierPanel;
  const rows = inRows(closed.length + 1, options.narrow ? 1 : isUpright ? 4 : 2, (at, corner) => {
    const shut = closed[at] ?? null;
    const heading = headingOf(at, closed.length, closedChecks);
    return draw(
      { scale, vernier, stand: shut ?? reading, words, closed: shut, heading, ...corner, length },
      options,
    );
  });
  const read = rows?.panels.at(-1);
  if (rows === null || read === undefined) return null;
  const isWorked = options.style === 'worked';
  const lines = isWorked
    ? [words.observed, words.zeroError, words.corrected].filter(line => line !== null)
    : [];
  const under = rows.height;
  return {
    width: Math.max(rows.width, paperFor(lines, rows.last.left + 22)),
    height: under + (lines.length > 0 ? 19 * lines.length + 8 : 0),
    body: together(
      ...rows.panels.slice(0, -1).map(({ body }) => element('g', { class: 'closed' }, body)),
      element('g', { class: 'reading', ...dataOf(reading, isWorked) }, read.body),
      isWorked ? results(lines, rows.last.left + 22, under + 14) : together(),
    ),
    title: titleOf(setting),
    description: described(setting, closed.length, read, isWorked),
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
  closed: number,
  { window, numbered: every, isMagnified }: Panel,
  isWorked: boolean,
): string {
  const { scale, vernier, isUpright } = setting;
  if (vernier === null) return '';
  const { strip, marking } = window;
  const numbered = numbersOn(scale, strip, marking);
  const [first, last] = [numbered[0], numbered.at(-1)].map(index => markNumber(scale, index ?? 0));
  const marks = [
    `main scale in ${unitName(scale.unit)}${isUpright ? ' standing upright' : ''}, numbered from ${first} to ${last} with ${marking.number} divisions from number to number`,
    `${isUpright ? 'beside' : 'below'} it a vernier of ${vernier.lines} divisions, numbered every ${every}${vernier.backward ? ', against the main scale' : ''}`,
    isMagnified ? 'a part of both magnified' : null,
    closedDrawn(closed, setting.closedChecks),
  ];
  return listed(isWorked ? [...marks, ...toldOfVernier(setting)] : marks);
}
