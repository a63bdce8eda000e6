import { checkedNote } from '../../../server/src/checks/check.ts';
import type { Finding } from '../../../server/src/checks/finding.ts';
import type { NoteCheck } from '../../../server/src/checks/note-check.ts';
import { mayTell } from '../../../server/src/checks/settings.ts';
import { blockCard } from '../../../server/src/figures/block-card.ts';
import { blockFigure } from '../../../server/src/figures/block-figure.ts';
import type { Measurement } from '../../../server/src/language/measurement.ts';
import { cardHtml, cardTitle, type SetMath } from '../../../server/src/render/card-html.ts';
import { escaped } from '../../../server/src/render/figures/svg.ts';

/** What a card is put together from, wherever its block stands in the note. */
export interface BlockParts {
  readonly name: string | null;
  readonly title: string;
  /** The tables and the question. */
  readonly tables: string;
  readonly findings: string;
  readonly figure: string | null;
  /** Which row of a table the figure shows; null where there is nothing to choose. */
  readonly drawnRow: string | null;
  /** Whether something in it is wrong, so that a figure from before is better than none. */
  readonly isBroken: boolean;
}

/** The parts for each block of a check, in its order. */
export function blockParts(check: NoteCheck, setMath: SetMath): readonly BlockParts[] {
  const isTold = mayTell(check.settings);
  const findings = checkedNote(check).findings.filter(({ waived }) => waived === null);
  return check.measurements.slice(0, check.fences).map((measurement, block) => {
    const { span } = measurement.fence;
    const own = findings.filter(finding => span.start <= finding.span.start && finding.span.start < span.end);
    const card = blockCard(check, block, !isTold);
    const figure = blockFigure(check, block, {
      style: isTold ? 'worked' : 'question',
      row: null,
      small: false,
      narrow: true,
    });
    const isUnread = measurement.problems.length > 0 || measurement.broken.size > 0;
    const isWrong = figure === null && own.some(({ severity }) => severity === 'error');
    return {
      name: measurement.name,
      title: cardTitle(card),
      tables: cardHtml(card, setMath),
      findings: findingsHtml(own),
      figure: figure?.svg.trimEnd() ?? null,
      drawnRow: figure === null ? null : drawnRow(measurement),
      isBroken: isUnread || isWrong,
    };
  });
}

/** A card as it stands in the preview; `isEarlier` says that its figure is the one from before a line was broken. */
export function partsHtml(
  { title, tables, findings, drawnRow }: BlockParts,
  figure: string | null,
  isEarlier: boolean,
): string {
  const words = [drawnRow, isEarlier ? 'As it was before the line that cannot be used now.' : null];
  const said = words.filter(each => each !== null).join(' ');
  const below = said === '' ? '' : `<figcaption>${escaped(said)}</figcaption>`;
  const drawn =
    figure === null
      ? ''
      : `<figure class="leastwise-figure${isEarlier ? ' leastwise-earlier' : ''}">${figure}${below}</figure>`;
  const label = `Measurement${title === '' ? '' : ` ${title}`}`;
  return `<div class="leastwise-card" role="group" aria-label="${escaped(label)}"><div class="leastwise-said">${tables}${findings}</div>${drawn}</div>\n`;
}

function drawnRow({ rows }: Measurement): string | null {
  if (rows.length < 2) return null;
  const label = rows[0]?.label ?? null;
  return label === null ? 'The first row is drawn.' : `The first row, ${label}, is drawn.`;
}

function findingsHtml(findings: readonly Finding[]): string {
  if (findings.length === 0) return '';
  const items = findings.map(
    ({ severity, message }) =>
      `<li class="leastwise-${severity}"><strong>${severity === 'error' ? 'Error' : 'Warning'}:</strong> ${inWords(message)}</li>`,
  );
  return `<ul class="leastwise-findings">${items.join('')}</ul>`;
}

/** A message with the code in it set as code. */
function inWords(message: string): string {
  return message
    .split('`')
    .map((piece, at) => (at % 2 === 1 ? `<code>${escaped(piece)}</code>` : escaped(piece)))
    .join('');
}
