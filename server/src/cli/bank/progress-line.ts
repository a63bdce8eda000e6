/** How far a run is; the whole is null as long as nobody has counted it. */
export interface Progress {
  readonly done: number;
  readonly whole: number | null;
}

const WIDEST_BAR = 40;
const NARROWEST_BAR = 8;

/**
 * A line of at most `columns` columns that says how many notes are done, with a bar where there is room for one and
 * the whole is known. It is in ASCII, so that every sign takes one column.
 */
export function progressLine({ done, whole }: Progress, columns: number): string {
  // A bank may have grown since it was counted.
  if (whole === null || whole < done || whole === 0)
    return fitting([`${done} notes checked`, `${done}`], columns);
  const share = done / whole;
  const words = `${done} of ${whole} notes`;
  const percent = `${String(Math.floor(100 * share)).padStart(3)} %`;
  const room = Math.min(WIDEST_BAR, columns - words.length - percent.length - '[]'.length - 2 * GAP.length);
  const bar = room < NARROWEST_BAR ? [] : [`[${filled(share, room)}]${GAP}${percent}${GAP}${words}`];
  return fitting([...bar, `${percent}${GAP}${words}`, words, percent], columns);
}

const GAP = '  ';

function filled(share: number, room: number): string {
  return '='.repeat(Math.floor(share * room)).padEnd(room);
}

/** The first text that has room; nothing where none has. */
function fitting(texts: readonly string[], columns: number): string {
  return texts.find(text => text.length <= columns) ?? '';
}
