/** The few ways in which a report sets words off. */
export interface Colours {
  readonly bold: (text: string) => string;
  readonly dim: (text: string) => string;
  readonly red: (text: string) => string;
  readonly yellow: (text: string) => string;
  readonly green: (text: string) => string;
}

const NONE: Colours = { bold: String, dim: String, red: String, yellow: String, green: String };

/** Real colours, or none; their library looks at the terminal when it loads, which costs time, so it loads only for them. */
export async function coloursFor(wanted: boolean): Promise<Colours> {
  if (!wanted) return NONE;
  const { default: picocolors } = await import('picocolors');
  return picocolors.createColors(true);
}
