import type { Colours } from '../colours.ts';
import { counted } from '../counted.ts';
import type { MendedSum, Summary } from '../summary.ts';

/** What was looked at and what came of it, in one line. */
export function closingLine(colours: Colours, summary: Summary): string {
  const { notes, blocks, claims, errors, warnings, waived, old, mended } = summary;
  const seen = `${counted(notes, 'note')}, ${counted(blocks, 'block')}, ${counted(claims, 'claim')} checked`;
  const found = [
    errors > 0 ? colours.red(counted(errors, 'error')) : null,
    warnings > 0 ? colours.yellow(counted(warnings, 'warning')) : null,
  ].filter(part => part !== null);
  const right = blocks === 0 ? 'there is no measurement block' : colours.green('nothing to correct');
  const outcome = found.length > 0 ? found.join(', ') : right;
  const apart = [
    waived > 0 ? `${waived} waived` : null,
    old !== null && old > 0 ? `${old} old` : null,
  ].filter(part => part !== null);
  const notCounted = apart.length > 0 ? colours.dim(` (${apart.join(', ')})`) : '';
  return `${seen}: ${outcome}${notCounted}${mended === null ? '' : `; ${mendedText(mended)}`}`;
}

function mendedText({ fixes, notes, isWritten }: MendedSum): string {
  if (fixes === 0) return isWritten ? 'nothing was mended' : 'nothing can be mended surely';
  return isWritten
    ? `${counted(fixes, 'fix', 'fixes')} made in ${counted(notes, 'note')}`
    : `${counted(fixes, 'fix', 'fixes')} to make in ${counted(notes, 'note')}, nothing was written`;
}
