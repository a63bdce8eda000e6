import type { Quantity } from '../engine/quantity.ts';

/** What a block says and what follows from it, laid out as a table of the trade; plain data for the preview and for print. */
export interface Card {
  readonly name: string | null;
  readonly instrument: string | null;
  /** In the order of the block, then what was worked out in the order of teaching. */
  readonly lines: readonly CardLine[];
  readonly readings: readonly CardTable[];
  /** What a question asks for; null where nothing is asked. */
  readonly asked: string | null;
  readonly choices: readonly CardChoice[];
}

export interface CardLine {
  readonly label: string;
  readonly value: CardValue;
  readonly isWorkedOut: boolean;
}

/** A value as text; with its quantity it can be set as math. */
export interface CardValue {
  readonly text: string;
  readonly quantity: Quantity | null;
}

/** Repeated readings, one in a row. */
export interface CardTable {
  readonly header: readonly string[];
  readonly rows: readonly (readonly CardCell[])[];
}

export interface CardCell extends CardValue {
  readonly isWorkedOut: boolean;
}

export interface CardChoice {
  readonly letter: string;
  readonly text: string;
  /** Whether it is right; null where that is not told. */
  readonly isRight: boolean | null;
}
