import type * as R from '../../engine/rational.ts';

/**
 * An instrument as it stands, as plain exact data: all that a drawing of it needs.
 *
 * Lengths and angles are in the shown unit (`scale.unit`; angles always in degrees). `reading` is how it stands with
 * the work between its jaws, `closed` how it stands at nought, empty where the block has no zero check. What is only
 * said in the worked style is in `words`; a drawing in the question style must not look there.
 *
 *     family    scale              vernier           drum              stand.drum
 *     vernier   main, straight     along the scale   null              null
 *     arc       main, on an arc    along the arc     null              null
 *     screw     linear, on sleeve  along the drum    round the sleeve  division on the line, fractions allowed
 *               (null for a plain screw gauge)
 *     disc      linear, on column  null              a flat disc       division at the column's edge
 *     dial      turns, small hand  null              large hand        division under the large hand
 */
export interface FigureSetting {
  readonly family: FigureFamily;
  /** As the note writes it; the drawing escapes it. Null where the block names none. */
  readonly instrument: string | null;
  /** The block's name and the row's label, for titles; null where there is none. */
  readonly name: string | null;
  readonly label: string | null;
  readonly scale: DividedScale;
  readonly vernier: VernierScale | null;
  /** Whether the straight scale stands upright, as on a height gauge. */
  readonly isUpright: boolean;
  readonly drum: Drum | null;
  readonly reading: Stand;
  readonly closed: readonly ClosedStand[];
  /** How many zero checks the block records; those past a few are not drawn. */
  readonly closedChecks: number;
  /** The disc read before and after a movement; null where its reading stands for itself. */
  readonly turned: Turned | null;
  readonly words: WorkedWords;
}

export type FigureFamily = 'vernier' | 'arc' | 'screw' | 'disc' | 'dial';

/** The coarse scale: main, linear, or the turns of a small hand. */
export interface DividedScale {
  /** One division, in the shown unit. */
  readonly division: R.Rational;
  /** As it is written beside a number: `mm`, `°`. */
  readonly unit: string;
  /** How many millimetres one unit is, for saying the magnification; null for what is no length. */
  readonly millimetres: R.Rational | null;
  readonly isAngle: boolean;
  /** Where its marks begin; null where they go on. */
  readonly from: R.Rational | null;
  /** Numbers come round again here (360); null on a scale that goes on. */
  readonly around: R.Rational | null;
}

/** The fine scale that slides along the coarse one, or along the drum. */
export interface VernierScale {
  /** It has lines 0 to `lines`. */
  readonly lines: number;
  /** One division in the shown unit. */
  readonly division: R.Rational;
  /** What it slides along: a division of the scale, or of the drum, in the shown unit. */
  readonly along: R.Rational;
  /** Numbered against the scale: line k stands k divisions behind its zero. */
  readonly backward: boolean;
  /** The least count, in the shown unit. */
  readonly step: R.Rational;
}

/** The circular scale of a screw. */
export interface Drum {
  /** Divisions round it. */
  readonly divisions: number;
  /** What one turn moves, and one division, in the shown unit. */
  readonly pitch: R.Rational;
  readonly division: R.Rational;
}

/** How the instrument stands. */
export interface Stand {
  /** Where the vernier's zero, or the drum's edge, stands on the coarse scale; signed. */
  readonly position: R.Rational;
  /** The last mark of the coarse scale that is not past it. */
  readonly coarse: R.Rational;
  /** Lines of the vernier that meet a mark, and that mark: its place on the scale, or its number on the drum. */
  readonly inLine: readonly LinePair[];
  /** The lower of two neighbouring lines that share the coincidence; null where none do. */
  readonly between: number | null;
  /** The division on the line: 0 <= drum < divisions; null without a drum. */
  readonly drum: R.Rational | null;
}

/** How it stands at nought in one zero check. */
export interface ClosedStand extends Stand {
  /** `zero error = +0.06 mm`, or of several checks `reads +0.06 mm`; for the worked style only. */
  readonly says: string | null;
}

export interface LinePair {
  readonly line: number;
  readonly mark: R.Rational;
}

/** A disc read before and after, and which way its numbers went by. */
export interface Turned {
  readonly initial: R.Rational;
  readonly final: R.Rational;
  readonly toward: 'higher' | 'lower';
}

/** What the worked style says beside the drawing; all values as a right block would write them. */
export interface WorkedWords {
  /** `MSR = 2.45 cm`, `LSR = 7.5 mm` */
  readonly coarse: string;
  /** `17 × 0.002 cm = 0.034 cm`; the drum's share on a screw: `34 × 0.01 mm = 0.34 mm` */
  readonly fine: string;
  /** What the vernier on a screw adds: `6 × 0.001 mm = 0.006 mm`; null elsewhere. */
  readonly finest: string | null;
  /** `observed reading = 2.484 cm` */
  readonly observed: string;
  /** `zero error = +0.06 mm`, of several checks `zero error = +0.06 mm, the mean of 3 checks`; null where nothing determines it. */
  readonly zeroError: string | null;
  /** `corrected reading = 2.478 cm`; null where nothing determines it. */
  readonly corrected: string | null;
}
