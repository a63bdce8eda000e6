import type { Svg } from './svg.ts';

/** One position of an instrument, drawn in its place on the paper. */
export interface PlacedPanel {
  readonly body: Svg;
  readonly width: number;
  /** Where it ends, from the top of the paper. */
  readonly height: number;
}

export interface Corner {
  readonly left: number;
  readonly above: number;
}

/** Positions in their places, and how much paper all of them take. */
export interface Rows<T extends PlacedPanel> {
  readonly panels: readonly T[];
  /** Where the last one, the reading, begins. */
  readonly last: Corner;
  readonly width: number;
  readonly height: number;
}

const BETWEEN_ROWS = 8;

/**
 * Draws `count` positions beside one another, `perRow` at most in a row, further rows below; null where one of them
 * cannot be drawn.
 */
export function inRows<T extends PlacedPanel>(
  count: number,
  perRow: number,
  draw: (at: number, corner: Corner) => T | null,
): Rows<T> | null {
  const panels: T[] = [];
  let [left, above, width, height] = [0, 0, 0, 0];
  let last: Corner = { left, above };
  for (let at = 0; at < count; at++) {
    if (at > 0 && at % perRow === 0) [left, above] = [0, height + BETWEEN_ROWS];
    last = { left, above };
    const panel = draw(at, last);
    if (panel === null) return null;
    panels.push(panel);
    left += panel.width;
    width = Math.max(width, left);
    height = Math.max(height, panel.height);
  }
  return { panels, last, width, height };
}

/** What stands above each of the positions, the closed ones before the reading; null for a reading that is alone. */
export function headingOf(
  at: number,
  closed: number,
  checks: number,
  says: string | null = null,
): string | null {
  if (closed === 0) return null;
  return at < closed ? closedHeading(at, checks, says) : 'Reading';
}

/** What stands above a closed position: `Closed`, or of several checks `Closed, check 2`, with what it says where that is told. */
export function closedHeading(at: number, checks: number, says: string | null = null): string {
  if (checks === 1) return 'Closed';
  return `Closed, check ${at + 1}${says === null ? '' : `: ${says}`}`;
}

/** Says that closed positions stand beside the reading, and how many checks there were; null where none are drawn. */
export function closedDrawn(
  drawn: number,
  checks: number,
  closed = 'the same instrument closed',
): string | null {
  if (drawn === 0) return null;
  if (checks === 1) return `with it ${closed}`;
  return drawn === checks
    ? `with it ${closed}, in each of ${checks} checks`
    : `with it ${closed}, in the first ${drawn === 1 ? '' : `${drawn} `}of ${checks} checks`;
}
