import { type Draw, pick, shuffled } from './draw.ts';
import type { Fraction } from './fraction.ts';

/** A block as a tutor wrote it, and what the bench itself says about it, in millimetres, inches as such lengths, or degrees. */
export interface BenchNote {
  readonly text: string;
  /** Terms by their full names, with the values that were laid out. */
  readonly expected: Readonly<Record<string, Fraction>>;
}

const NAMES = ['bench', 'axle-sleeve', 'bearing-ball', 'seat-post', 'click-spring', 'B7'];
const FENCES = ['```', '~~~', '`````'];

/** Puts lines into a fenced block with prose around it. */
export function fencedBlock(lines: readonly string[], name: string | null, fence = '```'): string {
  return [`${fence}measurement${name === null ? '' : ` ${name}`}`, ...lines, fence].join('\n');
}

/** A note of one block whose records stand in any order, above its questions. */
export function noteOf(draw: Draw, records: readonly string[], questions: readonly string[] = []): string {
  const lines = [...shuffled(draw, records), ...questions];
  const block = fencedBlock(lines, pick(draw, NAMES), pick(draw, FENCES));
  return `# Bench sheet\n\nMeasure the part on the bench.\n\n${block}\n\nHand the sheet in.\n`;
}
