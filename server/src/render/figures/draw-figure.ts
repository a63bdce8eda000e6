import { drawArc } from './arc-figure.ts';
import { drawDial } from './dial-figure.ts';
import { drawDisc } from './disc-figure.ts';
import { drawScrew } from './screw-figure.ts';
import type { FigureFamily, FigureSetting } from './setting.ts';
import { contentName, element, type Svg, together, words } from './svg.ts';
import { drawVernier } from './vernier-figure.ts';

/** `question` shows marks and numbers only; `worked` marks the coincidence and explains the reading. */
export type FigureStyle = 'question' | 'worked';

/** A drawing of a block's instrument as it was read. */
export interface Figure {
  /** A whole SVG document; the same input gives the same bytes. */
  readonly svg: string;
  /** What an image needs for those who do not see it; gives nothing away in the style of a question. */
  readonly alternative: string;
  readonly width: number;
  readonly height: number;
}

export interface DrawOptions {
  readonly style: FigureStyle;
  /** A small figure for a hover, without the closed position beside it. */
  readonly small: boolean;
  /** All positions below one another, none wider than half a window, so that the texts keep their size there. */
  readonly narrow: boolean;
  /** Black on a white ground of its own, for where the colours around it are not known. */
  readonly paper: boolean;
}

/**
 * What the drawing of one family gives: its size, what is drawn, and what it is in words.
 *
 * Strokes and texts inherit `currentColor`, sans-serif 13 and a stroke width of 1. Anything that gives the answer away (the line
 * in line, the reading) is drawn, said or kept as data only if `options.style` is `worked`.
 */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly body: Svg;
  /** One line: which instrument, of which block and row. */
  readonly title: string;
  /** What stands where; in the question style marks and numbers, never the line in line nor the reading. */
  readonly description: string;
}

type Draw = (setting: FigureSetting, options: DrawOptions) => Drawing | null;

const FAMILIES: Readonly<Record<FigureFamily, Draw>> = {
  vernier: drawVernier,
  screw: drawScrew,
  arc: drawArc,
  disc: drawDisc,
  dial: drawDial,
};

/** Draws an instrument as it stands; null where a drawing would show nothing. */
export function drawFigure(setting: FigureSetting, options: DrawOptions): Figure | null {
  const drawing = FAMILIES[setting.family](setting, options);
  if (drawing === null) return null;
  const { width, height, body, title, description } = drawing;
  const name = contentName(`${title}\n${description}\n${options.style}\n`, body);
  const svg = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      role: 'img',
      'aria-labelledby': `figure-${name}-title figure-${name}-desc`,
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      style: 'max-width:100%;height:auto',
      color: options.paper ? 'black' : null,
      fill: 'none',
      stroke: 'currentColor',
      'font-family': 'sans-serif',
      'font-size': 13,
    },
    element('title', { id: `figure-${name}-title` }, words(title)),
    element('desc', { id: `figure-${name}-desc` }, words(description)),
    options.paper ? element('rect', { width, height, fill: 'white', stroke: 'none' }) : together(),
    body,
  );
  return { svg: `${svg}\n`, alternative: `${title}: ${description}`, width, height };
}
