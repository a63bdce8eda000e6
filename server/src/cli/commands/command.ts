import type { Command } from 'commander';
import type { ExitStatus } from '../complain.ts';

/** Adds one command to the program; what it gives back goes to `done` as the status of the whole. */
export type AddCommand = (program: Command, done: (status: ExitStatus) => void) => void;
