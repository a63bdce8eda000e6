import * as R from '../../engine/rational.ts';
import { textWidth } from './captions.ts';
import { roundedText } from './divided-scale.ts';
import type { ScrewShown } from './screw-panel.ts';
import { element, label, type Svg, strokes, together } from './svg.ts';
import { heightOn, lineAbove, type Unrolled } from './unrolled.ts';
import { nearestLine } from './vernier-window.ts';
import { filled } from './worked-marks.ts';

interface Placed {
  readonly edge: R.Rational;
  readonly base: number;
  readonly drumEnd: number;
  readonly unrolled: Unrolled | null;
  readonly flat: { readonly edge: number; readonly top: number } | null;
}

/** The place where a line meets a division: ringed, and named beside the drum or its unrolled edge. */
export function screwMeeting(
  { setting, stand }: ScrewShown,
  { edge, base, drumEnd, unrolled, flat }: Placed,
): { readonly body: Svg; readonly right: number } {
  const { vernier } = setting;
  if (unrolled === null || flat === null) {
    const y = R.rational(base);
    return pointed(edge, y, drumEnd, drumText(stand.drum ?? R.ZERO));
  }
  const middle = R.rational(flat.edge);
  const right = flat.edge + 54;
  if (vernier === null) {
    const y = heightOn(unrolled, flat.top, R.ZERO);
    return pointed(middle, y, right, drumText(stand.drum ?? R.ZERO));
  }
  const line = stand.inLine[0]?.line ?? stand.between ?? nearestLine(vernier, onDrum(setting, stand.drum));
  const next = stand.between === null ? line : line + 1;
  const y = heightOn(
    unrolled,
    flat.top,
    R.multiply(R.add(lineAbove(vernier, line), lineAbove(vernier, next)), R.HALF),
  );
  const text =
    stand.inLine.length > 0
      ? `line ${line} in line`
      : stand.between === null
        ? `line ${line} nearest`
        : `lines ${line} and ${next} equally off`;
  const room = Math.abs(R.toNumber(R.subtract(lineAbove(vernier, next), lineAbove(vernier, line))));
  return pointed(middle, y, right, text, 5 + (room * R.toNumber(unrolled.perDivision)) / 2);
}

function onDrum(setting: ScrewShown['setting'], drum: R.Rational | null): R.Rational {
  return R.multiply(drum ?? R.ZERO, setting.drum?.division ?? R.ONE);
}

function drumText(on: R.Rational): string {
  return `${roundedText(on)} on the line`;
}

function pointed(
  x: R.Rational,
  y: R.Rational,
  from: number,
  text: string,
  half = 5,
): { readonly body: Svg; readonly right: number } {
  const body = element(
    'g',
    { class: 'coincidence' },
    element('rect', {
      x: R.subtract(x, R.rational(15)),
      y: R.subtract(y, R.rational(Math.ceil(half))),
      width: 30,
      height: 2 * Math.ceil(half),
      rx: 5,
      'stroke-width': 1.2,
    }),
    filled([
      [from + 5, y],
      [from + 13, R.subtract(y, R.rational(5))],
      [from + 13, R.add(y, R.rational(5))],
    ]),
    label(from + 18, R.add(y, R.rational(4)), text, { 'text-anchor': 'start', 'font-weight': 'bold' }),
    strokes([[R.add(x, R.rational(54)), y, from + 5, y]], {
      class: 'leader',
      'stroke-width': 0.6,
      'stroke-dasharray': '2 2',
    }),
  );
  return { body: together(body), right: from + 24 + textWidth(text, 14) };
}
