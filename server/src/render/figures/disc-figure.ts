import * as R from '../../engine/rational.ts';
import { listed, magnification, paperFor, textWidth, titleOf, unitName } from './captions.ts';
import { columnPlace, type DiscView, discNumbers, discView, discWorked } from './disc-view.ts';
import { markingOf } from './divided-scale.ts';
import type { Drawing, DrawOptions } from './draw-figure.ts';
import { closedDrawn, closedHeading } from './positions.ts';
import type { Drum, FigureSetting } from './setting.ts';
import { element, exactly, label, type Svg, together } from './svg.ts';
import { textLines } from './worked-marks.ts';

const MOST_DIVISIONS = 500;
const DIVISION = 26;
/** So many divisions of the column are seen above and below the disc. */
const AROUND = R.rational(5);
const TALLEST = 420;
const LEAST_DIVISION = 5;
/** The heading stands so far above the column. */
const HEADING = 8;

/**
 * The column and the disc of a spherometer from the side: how high the disc's upper edge stands on the column, and
 * which of its divisions is at the column's edge. A disc that was read before and after a movement is drawn twice on a
 * column without figures; so is one with a zero check beside its closed position.
 */
export function drawDisc(setting: FigureSetting, options: DrawOptions): Drawing | null {
  const { drum, words } = setting;
  if (drum === null || drum.divisions > MOST_DIVISIONS) return null;
  const shown = positionsOf(setting, options, drum);
  if (shown === null) return null;
  const isWorked = options.style === 'worked';
  const isBare = setting.turned !== null;
  const { scale } = setting;
  const perRow = options.narrow && !isBare ? 1 : 2;
  const reach = options.narrow && isBare ? 100 : options.small || shown.length > 1 ? 140 : 190;
  const side = isWorked && !isBare ? Math.max(112, Math.ceil(textWidth(words.coarse)) + 20) : 24;
  const panel = side + 2 * reach + 24;
  const heading = shown.length > 1 ? 26 : 10;
  const sized = sizedColumn(setting, shown);
  if (sized === null) return null;
  const views = shown.map((each, index): DiscView & Position => ({
    ...each,
    ...sized.windowOf(each),
    scale,
    drum,
    perDivision: sized.perDivision,
    marking: markingOf(scale, 2, 5),
    isBare,
    x: (index % perRow) * panel + side + reach,
    top: heading + Math.floor(index / perRow) * (12 * DIVISION + heading + 8),
    reach,
  }));
  const bottom = Math.max(...views.map(view => columnPlace(view, view.from)));
  const under = bottom + 24;
  const lines = isWorked
    ? [
        isBare && words.coarse !== '' ? words.coarse : null,
        words.fine === '' ? null : `the disc adds ${words.fine}`,
        words.observed,
        words.zeroError,
        words.corrected,
      ].filter(line => line !== null)
    : [];
  const last = ((views.length - 1) % perRow) * panel;
  return {
    width: Math.max(panel * Math.min(views.length, perRow), paperFor(lines, last + 20)),
    height: Math.ceil(under + 8 + (lines.length > 0 ? 19 * lines.length + 6 : 0)),
    body: together(
      ...views.map((view, index) =>
        panelOf(view, (index % perRow) * panel + 20, isWorked, index === views.length - 1 ? setting : null),
      ),
      label(20, under, captionOf(setting, views[0]!), {
        'text-anchor': 'start',
        'font-size': 11,
        class: 'caption',
      }),
      lines.length === 0
        ? together()
        : element('g', { class: 'results' }, textLines(lines, last + 20, under + 22)),
    ),
    title: titleOf(setting),
    description: described(setting, drum, views, lines),
  };
}

interface Position {
  readonly heading: string | null;
  readonly position: R.Rational;
  readonly division: R.Rational;
  readonly coarse: R.Rational;
  /** What is said of the mark passed, in the worked style. */
  readonly mark: string;
}

/** The positions that are drawn, the last of them the reading; null where one of them has no division. */
function positionsOf(setting: FigureSetting, options: DrawOptions, drum: Drum): readonly Position[] | null {
  const { reading, closed, turned, words, closedChecks } = setting;
  if (turned !== null) {
    const before = R.multiply(turned.initial, drum.division);
    const moved = turned.toward === 'higher' ? reading.position : R.negate(reading.position);
    const after = R.add(before, moved);
    return [
      { heading: 'Before', position: before, division: turned.initial, coarse: before, mark: '' },
      { heading: 'After', position: after, division: turned.final, coarse: after, mark: '' },
    ];
  }
  if (reading.drum === null) return null;
  const stands = options.small ? [] : closed;
  if (stands.some(({ drum: division }) => division === null)) return null;
  const isAlone = stands.length === 0;
  return [
    ...stands.map((stand, at) => ({
      ...stand,
      heading: closedHeading(at, closedChecks, options.style === 'worked' ? stand.says : null),
      division: stand.drum!,
      mark: '',
    })),
    { ...reading, heading: isAlone ? null : 'Reading', division: reading.drum, mark: words.coarse },
  ];
}

interface SizedColumn {
  readonly perDivision: number;
  windowOf(position: Position): { readonly from: R.Rational; readonly to: R.Rational };
}

/** A disc that moved is seen on one stretch of the column at both times; null where it moved too far for that. */
function sizedColumn({ scale, turned }: FigureSetting, shown: readonly Position[]): SizedColumn | null {
  const around = R.multiply(AROUND, scale.division);
  const inDivisions = (value: R.Rational): R.Rational => R.divide(value, scale.division) ?? R.ZERO;
  if (turned === null) {
    const windowOf = ({ coarse }: Position) => ({
      from: R.subtract(coarse, R.add(around, R.multiply(scale.division, R.HALF))),
      to: R.add(coarse, R.add(around, R.multiply(scale.division, R.rational(3, 2)))),
    });
    return { perDivision: DIVISION, windowOf };
  }
  const places = shown.map(({ position }) => position);
  const low = R.multiply(R.floor(inDivisions(places.reduce(R.min))), scale.division);
  const high = R.multiply(R.ceil(inDivisions(places.reduce(R.max))), scale.division);
  const from = R.subtract(low, R.multiply(scale.division, R.rational(7, 2)));
  const to = R.add(high, R.multiply(scale.division, R.rational(7, 2)));
  const perDivision = Math.min(DIVISION, TALLEST / R.toNumber(inDivisions(R.subtract(to, from))));
  return perDivision < LEAST_DIVISION ? null : { perDivision, windowOf: () => ({ from, to }) };
}

function panelOf(
  view: DiscView & Position,
  left: number,
  isWorked: boolean,
  setting: FigureSetting | null,
): Svg {
  const attributes = {
    class: setting === null ? (view.isBare ? 'before' : 'closed') : 'reading',
    'data-division': isWorked ? R.toFractionText(view.division) : null,
    'data-reading': isWorked && setting !== null ? R.toFractionText(setting.reading.position) : null,
  };
  return element(
    'g',
    attributes,
    view.heading === null
      ? together()
      : label(left, view.top - HEADING, view.heading, { 'text-anchor': 'start', 'font-weight': 'bold' }),
    discView(view),
    isWorked ? discWorked(view, view.coarse, view.mark) : together(),
  );
}

function captionOf({ scale, turned }: FigureSetting, view: DiscView): string {
  const perUnit = R.divide(exactly(view.perDivision), scale.division);
  const drawn = perUnit === null ? null : magnification(perUnit, scale.millimetres);
  const column = `column in ${unitName(scale.unit)}${drawn === null ? '' : `, drawn ${drawn}`}`;
  return turned === null ? column : `${column}; turned toward ${turned.toward} numbers`;
}

function described(
  setting: FigureSetting,
  drum: Drum,
  views: readonly DiscView[],
  lines: readonly string[],
): string {
  const { scale, turned, words } = setting;
  const [first] = views;
  return listed([
    turned === null
      ? `a column in ${unitName(scale.unit)}, numbered every ${first!.marking.number} divisions`
      : 'a column without figures',
    `beside it a disc of ${drum.divisions} divisions, numbered every ${discNumbers(first!)}, its upper edge against the column`,
    turned === null ? null : `before and after it was turned toward ${turned.toward} numbers`,
    turned === null ? closedDrawn(views.length - 1, setting.closedChecks) : null,
    ...(lines.length === 0
      ? []
      : [
          ...(turned === null
            ? [
                words.coarse,
                `division ${R.toNumber(setting.reading.drum ?? R.ZERO)} of the disc at the column`,
              ]
            : [
                `division ${R.toNumber(turned.initial)} of the disc at the column before, ${R.toNumber(turned.final)} after`,
              ]),
          ...lines,
        ]),
  ]);
}
