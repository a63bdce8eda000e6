import { examineNote } from '../../server/src/checks/examine.ts';
import { blockFigure, type Figure, type FigureOptions } from '../../server/src/figures/block-figure.ts';

/** A straight stroke from one place to another. */
export type Stroke = readonly [x1: number, y1: number, x2: number, y2: number];

export interface DrawnText {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

/** The drawing of a note that is one block of these lines; fails where there is none. */
export function drawingOf(lines: readonly string[], options: Partial<FigureOptions> = {}): Figure {
  const figure = drawingOrNull(lines, options);
  if (figure === null) throw new Error(`not drawn:\n${lines.join('\n')}`);
  return figure;
}

export function drawingOrNull(lines: readonly string[], options: Partial<FigureOptions> = {}): Figure | null {
  const note = examineNote(['```measurement bench', ...lines, '```', ''].join('\n'));
  return note === null
    ? null
    : blockFigure(note, 0, { style: 'question', row: null, small: false, ...options });
}

/** What stands in the first group of a class, up to its own end. */
export function groupOf(svg: string, name: string): string {
  const start = svg.indexOf(`<g class="${name}"`);
  if (start < 0) return '';
  let depth = 0;
  for (const tag of svg.slice(start).matchAll(/<(\/?)g\b[^>]*?(\/?)>/g)) {
    depth += tag[1] === '/' ? -1 : tag[2] === '/' ? 0 : 1;
    if (depth === 0) return svg.slice(start, start + tag.index + tag[0].length);
  }
  return '';
}

/** The strokes of every path of a class. */
export function strokesOf(svg: string, name: string): readonly Stroke[] {
  return [...svg.matchAll(/<path [^>]*>/g)]
    .filter(([path]) => path.includes(`class="${name}"`))
    .flatMap(([path]) =>
      [...path.matchAll(/M(\S+?) (\S+?)L(\S+?) ([^"M]+)/g)].map(
        ([, x1, y1, x2, y2]) => [Number(x1), Number(y1), Number(x2), Number(y2)] as const,
      ),
    );
}

/** The texts of every group of a class. */
export function textsOf(svg: string, name: string): readonly DrawnText[] {
  return [...svg.matchAll(new RegExp(`<g class="${name}"(?: [a-z-]+="[^"]*")*>(.*?)</g>`, 'g'))].flatMap(
    ([, inside]) =>
      [...inside!.matchAll(/<text x="(\S+)" y="(\S+)"[^>]*>([^<]*)<\/text>/g)].map(([, x, y, text]) => ({
        x: Number(x),
        y: Number(y),
        text: text!.replace('−', '-'),
      })),
  );
}

/** Whether tags close in the order in which they open, and nothing is left unescaped. */
export function isWellFormed(svg: string): boolean {
  const open: string[] = [];
  const rest = svg.replace(
    /<(\/?)([a-z]+)((?: [a-z-]+(?::[a-z]+)?="[^"<]*")*)(\/?)>/gi,
    (_, ends, name, attributes, alone) => {
      const names = [...String(attributes).matchAll(/ ([a-z:-]+)="/gi)].map(match => match[1]);
      if (new Set(names).size !== names.length) open.push('twice');
      if (ends === '/' && open.pop() !== name) open.push('wrong');
      if (ends !== '/' && alone !== '/') open.push(name);
      return '';
    },
  );
  return open.length === 0 && !/[<>]/.test(rest) && !/&(?!amp;|lt;|gt;|quot;|#39;)/.test(svg);
}

/** What the question must never hold, whatever it shows. */
export const TELLING =
  /data-|in line|equally off|observed|reading =|zero error|stroke-width="3"|coincidence|dimension/;
