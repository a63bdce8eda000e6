import { RULES } from '../checks/all.ts';
import { SLIPS } from '../engine/slips/all.ts';
import { INSTRUMENTS } from '../language/instruments.ts';
import { TERMS } from '../language/terms.ts';
import { type Entry, instrumentEntry, ruleEntry, slipEntry, termEntry } from './entry.ts';

/** Every rule as the reference tells it, in the order of the rules. */
export const RULE_ENTRIES: readonly Entry[] = RULES.map(ruleEntry);

/** Every slip as the reference tells it. */
export const SLIP_ENTRIES: readonly Entry[] = SLIPS.map(slipEntry);

/** Every term as the reference tells it. */
export const TERM_ENTRIES: readonly Entry[] = TERMS.map(termEntry);

/** Every instrument as the reference tells it. */
export const INSTRUMENT_ENTRIES: readonly Entry[] = INSTRUMENTS.map(instrumentEntry);
