import type { Slip } from './slip.ts';

/** Every slip, the likeliest first: where several give the same number, the first is named. */
export const SLIPS: readonly Slip[] = [];
