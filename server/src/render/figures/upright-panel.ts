import * as R from '../../engine/rational.ts';
import { textWidth, widestOf } from './captions.ts';
import { numberedIn } from './divided-scale.ts';
import type { DrawOptions } from './draw-figure.ts';
import { heightOn, laidPlace, laidStrokes } from './lay.ts';
import { placeOn, type Strip, UPRIGHT_WIDTH } from './straight-scale.ts';
import { element, label, type Svg, together } from './svg.ts';
import {
  CAPTION,
  captionParts,
  DIMENSIONS,
  drawnStrip,
  GAP,
  HEADING,
  MARGIN,
  meetingPlace,
  type Panel,
  type Shown,
  STEP_TO_SEE,
} from './vernier-panel.ts';
import { UPRIGHT_VERNIER } from './vernier-strip.ts';
import { lensWindow, type Window, wholeWindow } from './vernier-window.ts';
import { dimensionLine, extension, filled, fromNought } from './worked-marks.ts';

/** Height of the heading, or of the blank above the scale where there is none. */
const TOP = 12;
const CAPTION_LINE = 14;

/**
 * A main scale that stands upright, its vernier to the right of it; further right the place where the lines meet,
 * magnified where that is needed. Dimension lines stand to the left.
 */
export function uprightPanel(shown: Shown, options: DrawOptions): Panel {
  const { scale, vernier, stand, heading, left, above, length } = shown;
  const isWorked = options.style === 'worked';
  const foot = above + (heading === null ? TOP : TOP + 20) + roomOnTop(shown, options) + length;
  const start = left + MARGIN + (isWorked ? dimensionsWidth(shown, options) : 0);
  const place = { left: 0, width: length, base: start + UPRIGHT_WIDTH, foot };
  const window = wholeWindow(scale, vernier, stand, place);
  const end = place.base + UPRIGHT_VERNIER;
  const numbered = numberedIn(vernier.lines, length, 15);
  const isMagnified = window.step < STEP_TO_SEE;
  const lens = isMagnified
    ? lensWindow(scale, vernier, stand, { ...place, base: end + GAP + UPRIGHT_WIDTH })
    : null;
  const seen = lens ?? window;
  const beside = seen.strip.base + UPRIGHT_VERNIER;
  const captions = captionParts(shown, window, lens);
  // It is made smaller with all the rest.
  const captionLook = options.narrow ? { ...CAPTION, 'font-size': 12 } : CAPTION;
  const met = isWorked ? meetingPlace(shown, seen.strip) : null;
  const metLines = met === null ? [] : wordLines(met.text, options);
  const body = together(
    heading === null ? together() : label(left + MARGIN, above + 18, heading, HEADING),
    element('g', { class: lens === null ? 'whole finest' : 'whole' }, drawnStrip(shown, window, numbered)),
    lens === null ? together() : magnified(shown, window.strip, lens, end),
    !isWorked
      ? together()
      : shown.closed !== null
        ? zeroDimension(shown, window.strip, start, options)
        : dimensions(shown, window.strip, start, options),
    met === null ? together() : coincidence({ ...met, lines: metLines }, seen.strip, foot, beside + 3),
    ...captions.map((text, at) => label(left + MARGIN, foot + 20 + CAPTION_LINE * at, text, captionLook)),
  );
  const widest = Math.max(
    beside + (met === null ? 0 : 18 + widestOf(metLines, 14)),
    left + MARGIN + widestOf(captions, 11),
  );
  return {
    body,
    width: Math.ceil(widest - left) + MARGIN,
    height: foot + 20 + CAPTION_LINE * (captions.length - 1) + 8,
    window,
    numbered,
    isMagnified,
  };
}

/** Room for the dimension lines, and for their words to the left of them. */
function dimensionsWidth({ closed, words, stand }: Shown, options: DrawOptions): number {
  if (closed !== null) {
    return closed.says === null || R.isZero(stand.position)
      ? 0
      : Math.ceil(widestOf(wordLines(closed.says, options))) + 10;
  }
  if (words.coarse === '') return 0;
  return Math.ceil(
    Math.max(DIMENSIONS + textWidth(words.coarse), 12 + widestOf(wordLines(words.fine, options))),
  );
}

/** The words of a short dimension line near the upper end keep clear of what stands above. */
function roomOnTop({ closed, words }: Shown, options: DrawOptions): number {
  const text = closed === null ? words.fine : (closed.says ?? '');
  return options.style === 'worked' ? WORD_LINE * (wordLines(text, options).length - 1) + 4 : 0;
}

/** Words in two lines where there is little room. */
function wordLines(text: string, { narrow }: DrawOptions): readonly string[] {
  return narrow ? text.split(/ (?==|in line|nearest|equally)/) : [text];
}

const WORD_LINE = 16;

function magnified(shown: Shown, whole: Strip, lens: Window, from: number): Svg {
  const { strip } = lens;
  const edge = strip.base - UPRIGHT_WIDTH;
  const perLine = R.toNumber(R.multiply(shown.vernier.division, strip.perUnit));
  const seen = [R.max(strip.from, whole.from), R.min(strip.to, whole.to)] as const;
  return together(
    laidStrokes(
      strip.foot,
      [
        [placeOn(whole, seen[0]), from + 2, strip.left, edge],
        [placeOn(whole, seen[1]), from + 2, placeOn(strip, strip.to), edge],
      ],
      { class: 'leader', 'stroke-width': 0.7, 'stroke-dasharray': '3 3' },
    ),
    element('g', { class: 'lens finest' }, drawnStrip(shown, lens, perLine >= 18 ? 1 : 5)),
  );
}

/** From nought or the torn edge to the mark passed, and from the mark to the vernier's zero; words to the left. */
function dimensions(shown: Shown, strip: Strip, start: number, options: DrawOptions): Svg {
  const { stand, words } = shown;
  const { foot } = strip;
  if (words.coarse === '' || foot === null) return together();
  const coarse = placeOn(strip, R.max(stand.coarse, strip.from));
  const zero = placeOn(strip, stand.position);
  const [far, near] = [start - 30, start - 9];
  const { from, line } = fromNought(strip, coarse, far);
  const [fewest, most] = [R.min(coarse, zero), R.max(coarse, zero)];
  const isNought = R.equals(coarse, zero);
  const middle = R.multiply(R.add(from, coarse), R.HALF);
  return element(
    'g',
    { class: 'dimensions' },
    line,
    label(far - 7, heightOn(foot, R.subtract(middle, R.rational(4))), words.coarse, {
      'text-anchor': 'end',
    }),
    extension(coarse, far - 4, strip.base - 16, foot),
    isNought
      ? together()
      : together(
          extension(zero, near - 4, strip.base, foot),
          dimensionLine(fewest, most, near, false, foot),
          besideArrow(wordLines(words.fine, options), near, most, foot),
        ),
  );
}

/** The words of a short dimension line, above its upper arrowhead. */
function besideArrow(lines: readonly string[], near: number, most: R.Rational, foot: number): Svg {
  return together(
    ...lines.toReversed().map((line, at) =>
      label(near + 5, heightOn(foot, R.add(most, R.rational(18 + at * WORD_LINE))), line, {
        'text-anchor': 'end',
      }),
    ),
  );
}

/** How far the closed instrument's zero stands from the scale's: the zero error. */
function zeroDimension({ stand, closed }: Shown, strip: Strip, start: number, options: DrawOptions): Svg {
  const { foot } = strip;
  const says = closed?.says ?? null;
  if (says === null || foot === null || R.isZero(stand.position)) return together();
  const [nought, zero] = [placeOn(strip, R.ZERO), placeOn(strip, stand.position)];
  const most = R.max(nought, zero);
  const near = start - 9;
  return element(
    'g',
    { class: 'dimensions' },
    extension(nought, near - 4, strip.base - 16, foot),
    extension(zero, near - 4, strip.base, foot),
    dimensionLine(R.min(nought, zero), most, near, false, foot),
    besideArrow(wordLines(says, options), near, most, foot),
  );
}

/** A ring around the place where two marks meet, and a pointer to the right of it with its words. */
function coincidence(
  { along, half, lines }: ReturnType<typeof meetingPlace> & { readonly lines: readonly string[] },
  { base }: Strip,
  foot: number,
  beside: number,
): Svg {
  return element(
    'g',
    { class: 'coincidence' },
    element('rect', {
      x: base - 15,
      y: heightOn(foot, R.toNumber(along) + half),
      width: 26,
      height: 2 * half,
      rx: Math.min(half, 7),
      'stroke-width': 1.2,
    }),
    filled([
      laidPlace(foot, along, beside),
      laidPlace(foot, R.subtract(along, R.rational(5)), beside + 8),
      laidPlace(foot, R.add(along, R.rational(5)), beside + 8),
    ]),
    ...lines.map((line, at) =>
      label(beside + 14, heightOn(foot, R.subtract(along, R.rational(4 + at * WORD_LINE))), line, {
        'text-anchor': 'start',
        'font-weight': 'bold',
      }),
    ),
  );
}
