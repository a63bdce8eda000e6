import type { ShareFacts } from './share-facts.ts';

/** How much a report holds, whatever it counts, in the order in which the document says it. */
export type Totals = Readonly<Record<string, number>>;

/** What stands below the notes of a share's document. */
export interface ShareClosing {
  readonly totals: Totals;
  readonly facts: ShareFacts;
  readonly seal: string;
}

/** The last line of a JSON document: of a share, of a whole bank, or of nothing that can be read. */
export type Closing = ({ readonly kind: 'share' } & ShareClosing) | { readonly kind: 'whole' | 'broken' };

const BROKEN: Closing = { kind: 'broken' };

/** Reads the last line, `],"summary":{…},"share":{…}}`, and believes nothing of it unseen. */
export function closingOf(line: string): Closing {
  const read = parsed(`{"notes":[${line}`);
  if (!isRecord(read) || !isRecord(read.summary)) return BROKEN;
  const totals = totalsOf(read.summary);
  if (totals === null) return BROKEN;
  if (read.share === undefined) return { kind: 'whole' };
  const facts = isRecord(read.share) ? factsOf(read.share) : null;
  if (facts === null || !isRecord(read.share) || typeof read.share.seal !== 'string') return BROKEN;
  return { kind: 'share', totals, facts, seal: read.share.seal };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function totalsOf(read: Readonly<Record<string, unknown>>): Totals | null {
  const { notes, errors } = read;
  return isCount(notes) && isCount(errors) && Object.values(read).every(isCount) ? (read as Totals) : null;
}

function factsOf(read: Readonly<Record<string, unknown>>): ShareFacts | null {
  const { index, of, bank, places, without, troubles } = read;
  if (!isCount(index) || !isCount(of) || index < 1 || index > of || !isCount(places)) return null;
  if ((bank !== null && typeof bank !== 'string') || !isTroubles(troubles) || !isRuns(without)) return null;
  return { index, of, bank, places, without, troubles };
}

function isCount(value: unknown): value is number {
  return typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;
}

function isTroubles(value: unknown): value is readonly string[] {
  return Array.isArray(value) && value.every(each => typeof each === 'string');
}

/** Stretches of places, each behind the one before it. */
function isRuns(value: unknown): value is ShareFacts['without'] {
  let end = 0;
  return (
    Array.isArray(value) &&
    value.every(each => {
      if (!Array.isArray(each) || each.length !== 2) return false;
      const [from, count] = each as readonly unknown[];
      if (!isCount(from) || !isCount(count) || from < end) return false;
      end = from + count;
      return true;
    })
  );
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
