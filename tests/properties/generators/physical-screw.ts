/**
 * A screw as it turns on the bench, in whole grains: how many pass between two circular divisions, how
 * many between two linear marks, and how many circular divisions stand round the drum.
 */
export interface ScrewShape {
  readonly circular: number;
  readonly perCircular: number;
  readonly perLinear: number;
}

/** What stands on the sleeve and on the drum after turning. */
export interface SeenScrew {
  /** The last linear mark that the drum's edge has passed. */
  readonly mark: number;
  readonly rotations: number;
  /** The circular division that stands on the line, or has passed it last. */
  readonly division: number;
  /** Grains by which the line lies beyond that division. */
  readonly beyond: number;
}

export function perRotation(shape: ScrewShape): number {
  return shape.perCircular * shape.circular;
}

/** Turns the screw grain by grain from zero, forward or back, counts what passes, and looks. */
export function seeScrew(shape: ScrewShape, position: number): SeenScrew {
  let seen: Turning = { mark: 0, toMark: 0, rotations: 0, division: 0, beyond: 0 };
  for (let turned = 0; turned < position; turned += 1) seen = turnOn(shape, seen);
  for (let turned = 0; turned > position; turned -= 1) seen = turnBack(shape, seen);
  return seen;
}

/** All positions from zero to `last` at which this screw looks alike. */
export function positionsThatLook(shape: ScrewShape, like: SeenScrew, last: number): number[] {
  const found: number[] = [];
  let seen: Turning = { mark: 0, toMark: 0, rotations: 0, division: 0, beyond: 0 };
  for (let position = 0; position <= last; position += 1) {
    const alike = seen.mark === like.mark && seen.division === like.division && seen.beyond === like.beyond;
    if (alike) found.push(position);
    seen = turnOn(shape, seen);
  }
  return found;
}

interface Turning extends SeenScrew {
  readonly toMark: number;
}

function turnOn(shape: ScrewShape, seen: Turning): Turning {
  let { mark, toMark, rotations, division, beyond } = seen;
  toMark += 1;
  beyond += 1;
  if (toMark === shape.perLinear) [mark, toMark] = [mark + 1, 0];
  if (beyond === shape.perCircular) [division, beyond] = [division + 1, 0];
  if (division === shape.circular) [rotations, division] = [rotations + 1, 0];
  return { mark, toMark, rotations, division, beyond };
}

function turnBack(shape: ScrewShape, seen: Turning): Turning {
  let { mark, toMark, rotations, division, beyond } = seen;
  toMark -= 1;
  beyond -= 1;
  if (toMark < 0) [mark, toMark] = [mark - 1, shape.perLinear - 1];
  if (beyond < 0) [division, beyond] = [division - 1, shape.perCircular - 1];
  if (division < 0) [rotations, division] = [rotations - 1, shape.circular - 1];
  return { mark, toMark, rotations, division, beyond };
}
