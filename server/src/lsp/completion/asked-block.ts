import type { Facts } from '../../language/facts.ts';
import type { Measurement } from '../../language/measurement.ts';
import type { Naming } from '../naming.ts';
import type { NearBlocks } from '../near-blocks.ts';
import type { BlockState } from './block-state.ts';

/** The block in which something is typed, and what its note names beside it. */
export interface AskedBlock {
  readonly near: NearBlocks;
  readonly facts: Facts;
  readonly measurement: Measurement;
  readonly naming: Naming;
  readonly state: BlockState;
  /** The names of all other blocks of the note. */
  readonly blocks: readonly string[];
}
