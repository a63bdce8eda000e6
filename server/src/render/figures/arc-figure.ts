import * as R from '../../engine/rational.ts';
import { type ArcFace, arcPanel, faceHeight, faceWidth, OUTER } from './arc-panel.ts';
import { type ArcPlan, arcPlan } from './arc-plan.ts';
import { angleText } from './arc-words.ts';
import { arcCoincidence, arcDimensions, OUTSIDE, WITHIN } from './arc-worked.ts';
import { brief, listed, titleOf } from './captions.ts';
import type { Drawing, DrawOptions } from './draw-figure.ts';
import type { FigureSetting, Stand, VernierScale, WorkedWords } from './setting.ts';
import { element, exactly, label, type Svg, together } from './svg.ts';
import { textLines } from './worked-marks.ts';

const WIDE = 760;
/** Two positions find room beside each other in this, or stand below each other. */
const BESIDE = 980;
const NARROW = 440;
const MARGIN = 20;

/**
 * A divided arc with its vernier on the inner side, as on a bevel protractor, a theodolite, a spectrometer or a
 * sextant; beside or above it the closed position where the block has a zero check.
 *
 * All marks point to one centre; the radius is the drawing's own. Where the whole vernier finds no room, the stretch
 * around its zero and the one around the line in line are drawn, with torn edges between them.
 */
export function drawArc(setting: FigureSetting, options: DrawOptions): Drawing | null {
  const { scale, vernier, reading, words } = setting;
  if (vernier === null) return null;
  const closed = options.small ? null : setting.closed;
  const width = options.small ? NARROW : WIDE;
  const shut = closed === null ? null : arcPlan(scale, vernier, closed, width);
  const plan = arcPlan(scale, vernier, reading, width);
  if (plan === null || (closed !== null && shut === null)) return null;
  const isWorked = options.style === 'worked';
  const first =
    closed === null || shut === null
      ? null
      : panelOf(setting, { ...CORNER, stand: closed, plan: shut, heading: 'Closed', words: null }, isWorked);
  const isBeside = first !== null && first.width + panelWidth(plan) <= BESIDE;
  const corner = {
    left: first !== null && isBeside ? first.width : 0,
    above: first === null || isBeside ? 0 : first.height + 8,
  };
  const heading = first === null ? null : 'Reading';
  const second = panelOf(setting, { ...corner, stand: reading, plan, heading, words }, isWorked);
  const under = Math.max(first?.height ?? 0, second.height);
  const lines = isWorked
    ? [words.observed, words.zeroError, words.corrected].filter(line => line !== null)
    : [];
  return {
    width: Math.ceil(Math.max(first?.width ?? 0, corner.left + second.width)),
    height: Math.ceil(under + (lines.length > 0 ? 19 * lines.length + 8 : 0)),
    body: together(
      first === null ? together() : element('g', { class: 'closed' }, first.body),
      element('g', { class: 'reading', ...dataOf(reading, isWorked) }, second.body),
      lines.length === 0
        ? together()
        : element('g', { class: 'results' }, textLines(lines, corner.left + MARGIN, under + 14)),
    ),
    title: titleOf(setting),
    description: described(setting, vernier, plan, first !== null, isWorked),
  };
}

interface Shown {
  readonly stand: Stand;
  readonly plan: ArcPlan;
  readonly heading: string | null;
  /** The corner of the panel on the paper. */
  readonly left: number;
  readonly above: number;
  /** Null for the closed position, whose dimension lines would be nothing. */
  readonly words: WorkedWords | null;
}

const CORNER = { left: 0, above: 0 };

interface Placed {
  readonly body: Svg;
  readonly width: number;
  /** Where it ends, from the top of the paper. */
  readonly height: number;
}

function panelOf(setting: FigureSetting, shown: Shown, isWorked: boolean): Placed {
  const { scale, vernier } = setting;
  const { stand, plan, heading, left, above, words } = shown;
  const hasDimensions = isWorked && words !== null;
  const top = above + (heading === null ? 8 : 30) + (hasDimensions ? OUTSIDE : 0);
  const width = panelWidth(plan);
  const centre = [left + width / 2, top + OUTER + plan.radius] as const;
  const face: ArcFace = { scale, vernier: vernier!, stand, plan, centre };
  const under = top + faceHeight(plan) + (isWorked ? WITHIN : 0);
  return {
    width,
    height: under + 26,
    body: together(
      heading === null
        ? together()
        : label(left + MARGIN, above + 18, heading, { 'text-anchor': 'start', 'font-weight': 'bold' }),
      arcPanel(face),
      hasDimensions ? arcDimensions(face, words) : together(),
      isWorked ? arcCoincidence(face) : together(),
      label(left + MARGIN, under + 16, captionOf(face), {
        'text-anchor': 'start',
        'font-size': 11,
        class: 'caption',
      }),
    ),
  };
}

/** A caption and a result find room in this. */
const LEAST_WIDTH = 300;

function panelWidth(plan: ArcPlan): number {
  return Math.max(faceWidth(plan), LEAST_WIDTH) + 2 * MARGIN;
}

function captionOf({ plan, scale }: ArcFace): string {
  const drawn = ((plan.perDivision / plan.radius) * 180) / Math.PI;
  const times = R.divide(exactly(drawn), scale.division);
  const size = times === null ? null : brief(times);
  return listed([
    `main scale in degrees${size === null || size === '1' ? '' : `, angles drawn ${size} times as wide`}`,
  ]);
}

function dataOf(stand: Stand, isWorked: boolean): Record<string, string> {
  if (!isWorked) return {};
  return {
    'data-in-line': stand.inLine.map(({ line }) => line).join(' '),
    'data-reading': R.toFractionText(stand.position),
  };
}

function described(
  setting: FigureSetting,
  vernier: VernierScale,
  plan: ArcPlan,
  hasClosed: boolean,
  isWorked: boolean,
): string {
  const { scale, words, reading } = setting;
  const numbered = R.multiply(scale.division, R.rational(plan.marking.number));
  const marks = [
    `main scale on an arc, one division ${angleText(scale.division, null)}, numbered every ${angleText(numbered, null)}`,
    `on its inner side a vernier of ${vernier.lines} divisions, numbered every ${plan.numberedLines}${vernier.backward ? ', against the main scale' : ''}`,
    plan.pieces.length > 1 ? 'two stretches of both are drawn, torn off between them' : null,
    hasClosed ? 'with it the same instrument closed' : null,
  ];
  if (!isWorked) return listed(marks);
  const [pair] = reading.inLine;
  return listed([
    ...marks,
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
  ]);
}
