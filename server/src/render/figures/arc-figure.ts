import * as R from '../../engine/rational.ts';
import { type ArcFace, arcPanel, faceHeight, faceWidth, OUTER } from './arc-panel.ts';
import { type ArcPlan, arcPlan } from './arc-plan.ts';
import { angleText } from './arc-words.ts';
import { arcCoincidence, arcDimensions, OUTSIDE, WITHIN } from './arc-worked.ts';
import { brief, listed, paperFor, titleOf, toldOfVernier } from './captions.ts';
import type { Drawing, DrawOptions } from './draw-figure.ts';
import { type Corner, closedDrawn, headingOf, inRows, type PlacedPanel } from './positions.ts';
import type { FigureSetting, Stand, VernierScale, WorkedWords } from './setting.ts';
import { element, exactly, label, together } from './svg.ts';
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
  const { scale, vernier, reading, words, closedChecks } = setting;
  if (vernier === null) return null;
  const closed = options.small ? [] : setting.closed;
  const width = options.small || options.narrow ? NARROW : WIDE;
  const plans = [...closed, reading].map(stand => arcPlan(scale, vernier, stand, width));
  const plan = plans.at(-1) ?? null;
  if (plan === null || plans.includes(null)) return null;
  const isWorked = options.style === 'worked';
  const rows = inRows(plans.length, options.narrow ? 1 : panelsInRow(plans), (at, corner) => {
    const shut = closed[at] ?? null;
    const says = isWorked ? (shut?.says ?? null) : null;
    const heading = headingOf(at, closed.length, closedChecks, says);
    const shown = { stand: shut ?? reading, plan: plans[at]!, heading, words: shut === null ? words : null };
    return panelOf(setting, { ...shown, ...corner }, isWorked);
  });
  const read = rows?.panels.at(-1);
  if (rows === null || read === undefined) return null;
  const under = rows.height;
  const lines = isWorked
    ? [words.observed, words.zeroError, words.corrected].filter(line => line !== null)
    : [];
  return {
    width: Math.max(Math.ceil(rows.width), paperFor(lines, rows.last.left + MARGIN)),
    height: Math.ceil(under + (lines.length > 0 ? 19 * lines.length + 8 : 0)),
    body: together(
      ...rows.panels.slice(0, -1).map(({ body }) => element('g', { class: 'closed' }, body)),
      element('g', { class: 'reading', ...dataOf(reading, isWorked) }, read.body),
      lines.length === 0
        ? together()
        : element('g', { class: 'results' }, textLines(lines, rows.last.left + MARGIN, under + 14)),
    ),
    title: titleOf(setting),
    description: described(setting, vernier, plan, closed.length, isWorked),
  };
}

interface Shown extends Corner {
  readonly stand: Stand;
  readonly plan: ArcPlan;
  readonly heading: string | null;
  /** Null for the closed position, whose dimension lines would be nothing. */
  readonly words: WorkedWords | null;
}

/** All beside one another where they find room, else two, else one below the other. */
function panelsInRow(plans: readonly (ArcPlan | null)[]): number {
  const widths = plans.flatMap(plan => (plan === null ? [] : [panelWidth(plan)])).sort((a, b) => b - a);
  const fits = (count: number): boolean =>
    widths.slice(0, count).reduce((sum, width) => sum + width, 0) <= BESIDE;
  return fits(widths.length) ? widths.length : fits(2) ? 2 : 1;
}

function panelOf(setting: FigureSetting, shown: Shown, isWorked: boolean): PlacedPanel {
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
  closed: number,
  isWorked: boolean,
): string {
  const { scale } = setting;
  const numbered = R.multiply(scale.division, R.rational(plan.marking.number));
  const marks = [
    `main scale on an arc, one division ${angleText(scale.division, null)}, numbered every ${angleText(numbered, null)}`,
    `on its inner side a vernier of ${vernier.lines} divisions, numbered every ${plan.numberedLines}${vernier.backward ? ', against the main scale' : ''}`,
    plan.isWhole ? null : 'a part of both is drawn, torn off where they go on',
    closedDrawn(closed, setting.closedChecks),
  ];
  return listed(isWorked ? [...marks, ...toldOfVernier(setting)] : marks);
}
