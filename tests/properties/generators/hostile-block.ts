import { fencedBlock } from './bench-note.ts';

/** A block of the name that all hostile notes give theirs. */
export function hostileBlock(...lines: readonly string[]): string {
  return fencedBlock(lines, 'hostile');
}

export function many(count: number, line: (index: number) => string): string[] {
  return Array.from({ length: count }, (_, index) => line(index));
}

export const SCALES: readonly string[] = ['main scale: 1 mm = 1 MSD', 'vernier scale: 10 VSD = 9 MSD'];
export const READING: readonly string[] = [...SCALES, 'MSR: 7 mm', 'n: 4'];
export const NINES = '9'.repeat(30);
export const HUGE = `1${'0'.repeat(30)}`;
