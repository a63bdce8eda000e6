import * as R from '../../engine/rational.ts';
import { listed, paperFor, titleOf } from './captions.ts';
import { type DialFace, dialFace, dialWorked, drumNumbers, RIM, turnsOf } from './dial-face.ts';
import type { Drawing, DrawOptions } from './draw-figure.ts';
import { closedDrawn, headingOf, inRows } from './positions.ts';
import type { Drum, FigureSetting, Stand } from './setting.ts';
import { element, label, together } from './svg.ts';
import { textLines } from './worked-marks.ts';

/** More divisions than this run into one another. */
const MOST_DIVISIONS = 400;
/** Around the dial: the arc and its number in the worked style. */
const OUTSIDE = { worked: 40, question: 14 } as const;

/**
 * A dial with two hands: the large one over the divisions of a turn, the small one over the turns; beside it the dial
 * at nought where the block has a zero check. Null for more turns or divisions than a dial shows.
 */
export function drawDial(setting: FigureSetting, options: DrawOptions): Drawing | null {
  const { scale, drum, reading, closedChecks } = setting;
  const closed = options.small ? [] : setting.closed;
  const turns = turnsOf(scale, reading);
  if (drum === null || turns === null || reading.drum === null || drum.divisions > MOST_DIVISIONS)
    return null;
  if (closed.some(stand => stand.drum === null || turnsOf(scale, stand) === null)) return null;
  const isWorked = options.style === 'worked';
  const radius = options.small ? 115 : 130;
  const panel = 2 * (radius + RIM + OUTSIDE[options.style]);
  const top = closed.length === 0 ? 0 : 22;
  const rows = inRows(closed.length + 1, options.narrow ? 1 : 2, (at, { left, above }) => {
    const shut = closed[at] ?? null;
    const says = isWorked ? (shut?.says ?? null) : null;
    const heading = headingOf(at, closed.length, closedChecks, says);
    const stand = shut ?? reading;
    const centre = [left + panel / 2, above + top + panel / 2] as const;
    const face: DialFace = { scale, drum, stand, centre, radius };
    const body = together(
      heading === null
        ? together()
        : label(left + 20, above + 18, heading, { 'text-anchor': 'start', 'font-weight': 'bold' }),
      dialFace(face, turns),
      isWorked ? dialWorked(face, turns) : together(),
    );
    return { body, width: panel, height: above + top + panel };
  });
  if (rows === null) return null;
  const { left } = rows.last;
  const under = rows.height + 10;
  const lines = isWorked ? dialLines(setting) : [];
  return {
    width: Math.max(rows.width, paperFor(lines, left + 20)),
    height: under + 8 + (lines.length > 0 ? 19 * lines.length + 6 : 0),
    body: together(
      ...rows.panels.slice(0, -1).map(({ body }) => element('g', { class: 'closed' }, body)),
      element(
        'g',
        { class: 'reading', ...dataOf(reading, isWorked) },
        ...rows.panels.slice(-1).map(({ body }) => body),
      ),
      label(left + 20, under, 'the small hand counts turns', {
        'text-anchor': 'start',
        'font-size': 11,
        class: 'caption',
      }),
      lines.length === 0
        ? together()
        : element('g', { class: 'results' }, textLines(lines, left + 20, under + 22)),
    ),
    title: titleOf(setting),
    description: described({ ...setting, closed }, drum, turns, isWorked),
  };
}

function dialLines({ words }: FigureSetting): readonly string[] {
  return [
    words.coarse === '' ? null : `small hand: ${words.coarse}`,
    words.fine === '' ? null : `large hand: ${words.fine}`,
    words.observed,
    words.zeroError,
    words.corrected,
  ].filter(line => line !== null);
}

function dataOf(stand: Stand, isWorked: boolean): Record<string, string> {
  if (!isWorked || stand.drum === null) return {};
  return { 'data-division': R.toFractionText(stand.drum), 'data-reading': R.toFractionText(stand.position) };
}

function described(setting: FigureSetting, drum: Drum, turns: number, isWorked: boolean): string {
  return listed([
    `a dial of ${drum.divisions} divisions, numbered every ${drumNumbers(drum)}, with a large hand`,
    `a small dial of ${turns} turns with a small hand`,
    closedDrawn(setting.closed.length, setting.closedChecks, 'the same dial at nought'),
    ...(isWorked ? dialLines(setting) : []),
  ]);
}
