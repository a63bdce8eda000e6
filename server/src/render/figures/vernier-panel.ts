import * as R from '../../engine/rational.ts';
import { brief, magnification, textWidth, unitName } from './captions.ts';
import { markBefore, numberedIn } from './divided-scale.ts';
import type { DrawOptions } from './draw-figure.ts';
import type { Corner, PlacedPanel } from './positions.ts';
import type { ClosedStand, DividedScale, Stand, VernierScale, WorkedWords } from './setting.ts';
import { mainStrip, placeOn, STRIP_HEIGHT, type Strip } from './straight-scale.ts';
import { element, label, type Svg, strokes, together } from './svg.ts';
import { linePlace, VERNIER_HEIGHT, vernierStrip } from './vernier-strip.ts';
import { lensWindow, lineToSee, type Window, wholeWindow } from './vernier-window.ts';
import { coincidence, dimensionLine, extension, fromNought } from './worked-marks.ts';

/** One position of an instrument, drawn; `window` is the main scale's. */
export interface Panel extends PlacedPanel {
  readonly window: Window;
  /** Every how many lines the vernier bears its number. */
  readonly numbered: number;
  readonly isMagnified: boolean;
}

/** What a panel shows, and where. */
export interface Shown extends Corner {
  readonly scale: DividedScale;
  readonly vernier: VernierScale;
  readonly stand: Stand;
  readonly words: WorkedWords;
  /** What is said of a closed position; of the reading null. */
  readonly closed: Pick<ClosedStand, 'says'> | null;
  readonly heading: string | null;
  /** Its size along the scale. */
  readonly length: number;
}

/** A least count that comes out smaller is magnified in a window of its own. */
export const STEP_TO_SEE = 1.6;
export const MARGIN = 22;
export const DIMENSIONS = 46;
export const GAP = 30;

/** A vernier on its main scale, and below it the place where the lines meet, magnified where that is needed. */
export function vernierPanel(shown: Shown, options: DrawOptions): Panel {
  const { scale, vernier, stand, heading, left, above, length: width } = shown;
  const isWorked = options.style === 'worked';
  const hasDimensions = heading !== null || shown.words.coarse !== '';
  const top = above + (heading === null ? 8 : 30) + (isWorked && hasDimensions ? DIMENSIONS : 0);
  const place = { left: left + MARGIN, width: width - 2 * MARGIN, base: top + STRIP_HEIGHT, foot: null };
  const window = wholeWindow(scale, vernier, stand, place);
  const numbered = numberedIn(vernier.lines, place.width, textWidth(String(vernier.lines), 12) + 6);
  const whole = drawnStrip(shown, window, numbered);
  const bottom = place.base + VERNIER_HEIGHT;
  const isMagnified = window.step < STEP_TO_SEE;
  const lens = isMagnified
    ? lensWindow(scale, vernier, stand, { ...place, base: bottom + GAP + STRIP_HEIGHT })
    : null;
  const seen = lens ?? window;
  const under = lens === null ? bottom : lens.strip.base + VERNIER_HEIGHT;
  const body = together(
    heading === null ? together() : label(left + MARGIN, above + 18, heading, HEADING),
    element('g', { class: lens === null ? 'whole finest' : 'whole' }, whole),
    lens === null ? together() : magnified(shown, window.strip, lens, bottom),
    !isWorked
      ? together()
      : shown.closed !== null
        ? zeroDimension(shown, window.strip, top)
        : dimensions(shown, window, top),
    isWorked ? meeting(shown, seen, under) : together(),
    caption(shown, window, lens, under + (isWorked ? 46 : 20)),
  );
  return { body, width, height: under + (isWorked ? 52 : 26), window, numbered, isMagnified };
}

export const HEADING = { 'text-anchor': 'start', 'font-weight': 'bold' } as const;

/** Main scale and vernier as they stand on a strip. */
export function drawnStrip({ scale, vernier, stand }: Shown, { strip, marking }: Window, every: number): Svg {
  return together(mainStrip(scale, strip, marking), vernierStrip(vernier, stand.position, strip, every));
}

function magnified(shown: Shown, whole: Strip, lens: Window, from: number): Svg {
  const { strip } = lens;
  const right = placeOn(strip, strip.to);
  const top = strip.base - STRIP_HEIGHT;
  const perLine = R.toNumber(R.multiply(shown.vernier.division, strip.perUnit));
  const every = perLine >= 24 ? 1 : 5;
  const seen = [R.max(strip.from, whole.from), R.min(strip.to, whole.to)] as const;
  return together(
    strokes(
      [
        [placeOn(whole, seen[0]), from + 2, strip.left, top],
        [placeOn(whole, seen[1]), from + 2, right, top],
      ],
      { class: 'leader', 'stroke-width': 0.7, 'stroke-dasharray': '3 3' },
    ),
    element('g', { class: 'lens finest' }, drawnStrip(shown, lens, every)),
  );
}

function dimensions(shown: Shown, { strip, marking }: Window, top: number): Svg {
  const { stand, words, left, length: width } = shown;
  // Where the mark in line was recorded the sum below says it all.
  if (words.coarse === '') return together();
  const coarse = placeOn(strip, R.max(stand.coarse, strip.from));
  const zero = placeOn(strip, stand.position);
  const [upper, lower] = [top - 30, top - 9];
  const { from, line } = fromNought(strip, coarse, upper);
  const right = left + width - 2;
  const isNumbered = markBefore(shown.scale, stand.coarse) % marking.number === 0;
  const isNought = R.equals(coarse, zero);
  return element(
    'g',
    { class: 'dimensions' },
    line,
    R.toNumber(R.abs(R.subtract(coarse, from))) > textWidth(words.coarse)
      ? label(R.multiply(R.add(from, coarse), R.HALF), upper - 5, words.coarse)
      : besideArrow([from, coarse], upper, words.coarse, right),
    extension(coarse, upper - 4, strip.base - (isNumbered ? 42 : 16)),
    isNought ? together() : extension(zero, lower - 4, strip.base),
    isNought ? together() : dimensionLine(R.min(coarse, zero), R.max(coarse, zero), lower),
    isNought ? together() : besideArrow([coarse, zero], lower, words.fine, right),
  );
}

/** How far the closed instrument's zero stands from the scale's: the zero error. */
function zeroDimension(shown: Shown, strip: Strip, top: number): Svg {
  const { stand, left, length: width } = shown;
  const says = shown.closed?.says ?? null;
  if (says === null || R.isZero(stand.position)) return together();
  const [nought, zero] = [placeOn(strip, R.ZERO), placeOn(strip, stand.position)];
  const y = top - 9;
  return element(
    'g',
    { class: 'dimensions' },
    extension(nought, y - 4, strip.base - 42),
    extension(zero, y - 4, strip.base),
    dimensionLine(R.min(nought, zero), R.max(nought, zero), y),
    besideArrow([nought, zero], y, says, left + width),
  );
}

/** The words of a short dimension line: behind it, or before it where they would leave the drawing. */
function besideArrow(
  [one, other]: readonly [R.Rational, R.Rational],
  y: number,
  text: string,
  right: number,
): Svg {
  const [low, high] = [R.min(one, other), R.max(one, other)];
  const isBehind = R.toNumber(high) + 18 + textWidth(text) < right;
  const x = isBehind ? R.add(high, R.rational(16)) : R.subtract(low, R.rational(16));
  return label(x, y + 4, text, { 'text-anchor': isBehind ? 'start' : 'end' });
}

function meeting(shown: Shown, { strip }: Window, under: number): Svg {
  const { along, half, text } = meetingPlace(shown, strip);
  const right = R.toNumber(placeOn(strip, strip.to));
  return coincidence(along, strip.base, under + 3, text, {
    left: strip.left - 10,
    right: Math.max(right, strip.left + textWidth(text)) + 10,
    half,
  });
}

/** Where the line in line stands along a strip, or the middle of two that share the coincidence, and its words. */
export function meetingPlace(
  { vernier, stand, scale }: Shown,
  strip: Strip,
): { readonly along: R.Rational; readonly half: number; readonly text: string } {
  const line = lineToSee(vernier, stand);
  const first = linePlace(vernier, stand.position, line);
  const pair = stand.inLine[0];
  const next = stand.between === null ? first : linePlace(vernier, stand.position, line + 1);
  const room = R.toNumber(R.multiply(R.abs(R.subtract(next, first)), strip.perUnit)) / 2;
  const perLine = R.toNumber(R.multiply(R.min(vernier.division, scale.division), strip.perUnit));
  return {
    along: placeOn(strip, R.multiply(R.add(first, next), R.HALF)),
    half: room + Math.min(7, perLine * 0.4),
    text:
      pair !== undefined
        ? `line ${pair.line} in line`
        : stand.between === null
          ? `line ${line} nearest`
          : `lines ${line} and ${line + 1} equally off`,
  };
}

function caption(shown: Shown, window: Window, lens: Window | null, y: number): Svg {
  const parts = captionParts(shown, window, lens);
  return label(shown.left + MARGIN, y, parts.join(', '), CAPTION);
}

export const CAPTION = { 'text-anchor': 'start', 'font-size': 11, class: 'caption' } as const;

/** The unit of the scale, how large it is drawn, and how much larger the window beside or below it. */
export function captionParts({ scale }: Shown, { strip }: Window, lens: Window | null): readonly string[] {
  const drawn = magnification(strip.perUnit, scale.millimetres);
  const times = lens === null ? null : R.divide(lens.strip.perUnit, strip.perUnit);
  return [
    `main scale in ${unitName(scale.unit)}`,
    drawn === null ? null : `drawn ${drawn}`,
    times === null
      ? null
      : `window ${strip.foot === null ? 'below' : 'to its right'} ${brief(times)} times larger`,
  ].filter(part => part !== null);
}
