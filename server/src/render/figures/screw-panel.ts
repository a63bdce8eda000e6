import * as R from '../../engine/rational.ts';
import { magnification, textWidth, unitName, widestOf } from './captions.ts';
import type { DrawOptions } from './draw-figure.ts';
import type { Corner, PlacedPanel } from './positions.ts';
import { screwMeeting } from './screw-worked.ts';
import type { ClosedStand, FigureSetting, Stand } from './setting.ts';
import { drawSleeve, type Sleeve, sleeveOf } from './sleeve.ts';
import { placeOn } from './straight-scale.ts';
import { element, label, type Svg, strokes, together } from './svg.ts';
import { DRUM_WIDTH, drawSleeveVernier, drawThimble, RADIUS } from './thimble.ts';
import { drawUnrolled, unrolledCaption, unrolledOf } from './unrolled.ts';
import { dimensionLine, extension, fromNought } from './worked-marks.ts';

/** One position of a screw, drawn. */
export interface ScrewPanel extends PlacedPanel {
  readonly sleeve: Sleeve;
}

export interface ScrewShown extends Corner {
  readonly setting: FigureSetting;
  readonly stand: Stand;
  /** What is said of a closed position; of the reading null. */
  readonly closed: Pick<ClosedStand, 'says'> | null;
  readonly heading: string | null;
}

const MARGIN = 22;
const DIMENSIONS = 46;
const CAPTION_LINE = 14;

/** Sleeve and drum at one position, and beside them the drum's edge unrolled where it has to be magnified. */
export function screwPanel(shown: ScrewShown, options: DrawOptions): ScrewPanel | null {
  const { setting, stand, heading, left, above } = shown;
  const { scale, drum, vernier } = setting;
  if (drum === null || stand.drum === null) return null;
  const isWorked = options.style === 'worked';
  const hasVernier = vernier !== null;
  const unrolled = unrolledOf(drum, vernier, stand);
  // Words of a dimension keep clear of the torn edge beside the drum.
  const clear = unrolled === null ? 0 : 8;
  const top = above + (heading === null ? 10 : 34) + (isWorked ? DIMENSIONS + clear : 0);
  const reach = Math.max(RADIUS + 12, unrolled === null ? 0 : Math.ceil(unrolled.height / 2));
  const base = top + reach;
  const half = hasVernier ? RADIUS - 3 : 74;
  const sleeve = sleeveOf(scale, stand, left + MARGIN, base, vernier);
  const edge = placeOn(sleeve.strip, sleeve.strip.to);
  const drumEnd = Math.ceil(R.toNumber(edge)) + DRUM_WIDTH;
  const flat =
    unrolled === null
      ? null
      : { edge: drumEnd + (options.narrow ? 66 : 84), top: base - Math.round(unrolled.height / 2) };
  const end = flat === null ? drumEnd : flat.edge + 54;
  const meeting = isWorked ? screwMeeting(shown, { edge, base, drumEnd, unrolled, flat }) : null;
  const below = base + reach + 22;
  const captions = [
    `linear scale in ${unitName(scale.unit)}`,
    magnified(sleeve, scale.millimetres),
    unrolled === null ? null : unrolledCaption(unrolled, drum),
  ].filter(part => part !== null);
  const isBroken = options.narrow && captions.length > 2;
  const lines = isBroken
    ? [captions.slice(0, 2).join(', '), captions.slice(2).join(', ')]
    : [captions.join(', ')];
  const body = together(
    heading === null
      ? together()
      : label(left + MARGIN, above + 18, heading, { 'text-anchor': 'start', 'font-weight': 'bold' }),
    drawSleeve(scale, sleeve, edge, half),
    element(
      'g',
      { class: unrolled === null ? 'finest' : null },
      drawThimble(drum, stand.drum, edge, base),
      hasVernier ? drawSleeveVernier(vernier, drum, edge, base) : together(),
    ),
    unrolled === null || flat === null
      ? together()
      : drawUnrolled(unrolled, { drum, vernier, stand }, flat.edge, flat.top),
    isWorked ? dimensions(shown, sleeve, edge, top - clear) : together(),
    meeting?.body ?? together(),
    ...lines.map((line, at) =>
      label(left + MARGIN, below + at * CAPTION_LINE, line, {
        'text-anchor': 'start',
        'font-size': 11,
        class: 'caption',
      }),
    ),
  );
  // Of a closed screw that reads less than nought, nought lies behind the edge.
  const arrow = shown.closed === null ? edge : R.max(edge, placeOn(sleeve.strip, R.ZERO));
  const words = isWorked ? R.toNumber(arrow) + 20 + widestWords(shown) : 0;
  const width = Math.ceil(
    Math.max(end + MARGIN, meeting?.right ?? 0, words, left + 2 * MARGIN + widestOf(lines, 11)) - left,
  );
  return { body, width, height: below + (lines.length - 1) * CAPTION_LINE + 8, sleeve };
}

function magnified(sleeve: Sleeve, millimetres: R.Rational | null): string | null {
  const drawn = magnification(sleeve.strip.perUnit, millimetres);
  return drawn === null ? null : `drawn ${drawn}`;
}

function widestWords({ setting, closed }: ScrewShown): number {
  const { fine, coarse } = setting.words;
  return widestOf(closed === null ? [fine, coarse] : [closed.says ?? '']);
}

/** From nought to the mark, and from the mark to the edge; of the closed screw from nought to the edge. */
function dimensions(
  { setting, stand, closed }: ScrewShown,
  sleeve: Sleeve,
  edge: R.Rational,
  top: number,
): Svg {
  const { words } = setting;
  const { strip } = sleeve;
  const isClosed = closed !== null;
  const [upper, lower] = [top - 30, top - 9];
  const coarse = isClosed ? placeOn(strip, R.ZERO) : placeOn(strip, R.max(stand.coarse, strip.from));
  const { from, line } = fromNought(strip, coarse, upper);
  const text = isClosed ? closed.says : words.fine;
  const isWide = R.toNumber(R.abs(R.subtract(coarse, from))) > textWidth(words.coarse);
  const [low, high] = [R.min(coarse, edge), R.max(coarse, edge)];
  return element(
    'g',
    { class: 'dimensions' },
    isClosed || words.coarse === ''
      ? together()
      : together(
          line,
          isWide
            ? label(R.multiply(R.add(from, coarse), R.HALF), upper - 5, words.coarse)
            : label(R.add(R.max(from, coarse), R.rational(16)), upper + 4, words.coarse, {
                'text-anchor': 'start',
              }),
        ),
    extension(coarse, isClosed ? lower - 4 : upper - 4, strip.base - (sleeve.side === 'below' ? 2 : 38)),
    R.equals(low, high) || text === null || text === ''
      ? together()
      : together(
          strokes([[edge, lower - 4, edge, strip.base - RADIUS]], {
            class: 'extension',
            'stroke-width': 0.6,
            'stroke-dasharray': '2 2',
          }),
          dimensionLine(low, high, lower),
          label(R.add(high, R.rational(16)), lower + 4, text, { 'text-anchor': 'start' }),
        ),
  );
}
