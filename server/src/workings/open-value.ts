import { rightValue } from '../checks/right-value.ts';
import { valueTimes } from '../checks/truth.ts';
import type * as Q from '../engine/quantity.ts';
import { type Unit, unitShown, unitWord } from '../engine/unit.ts';
import { evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { lineOf } from '../language/line-edits.ts';
import type { Claim, Link } from '../language/measurement.ts';
import { tokensText } from '../language/statement-dress.ts';
import { columnName } from '../language/table-header.ts';
import { isTableLine, readTableLine, type TableLine } from '../language/table-line.ts';
import { shownValue } from '../render/shown-value.ts';

/** The right value as it is written in the place of a question mark; null where the block does not determine it. */
export function openValue(facts: Facts, claim: Claim, link: Link): string | null {
  const truth = valueTimes(facts, claim);
  if (!truth.ok) return null;
  const column = claim.inTable ? columnUnit(facts, link) : null;
  const unit = column ?? unitBefore(facts, claim, link, truth.quantity);
  const isAngle = truth.quantity.dimension.angle === 1 && column === null;
  const sexagesimal = isAngle && facts.measurement.fence.lines.some(({ text }) => /[′″'"]/.test(text));
  const text =
    claim.times === null
      ? (rightValue(facts, claim.subject, unit, sexagesimal)?.text ?? null)
      : shownValue(truth.quantity, { unit, sexagesimal });
  if (text === null || column === null) return text;
  // The head of the column says the unit for all of its cells.
  const shown = unitShown(column);
  return text.endsWith(shown) ? text.slice(0, -shown.length).trimEnd() : text;
}

/** The unit that the claim's own links speak in; null where they speak in none. */
function unitBefore(facts: Facts, claim: Claim, link: Link, truth: Q.Quantity): Unit | null {
  const before = claim.links.slice(0, claim.links.indexOf(link)).reverse();
  for (const { content } of before) {
    if (content.kind !== 'stated') continue;
    const value = evaluateStated(facts, content.stated, truth.dimension);
    if (value.ok && value.quantity.unit !== null) return value.quantity.unit;
  }
  return null;
}

/** The unit in the head of the column that a cell stands in. */
function columnUnit({ measurement }: Facts, { span }: Link): Unit | null {
  const { fence } = measurement;
  const line = lineOf(fence, span.start);
  if (line === null) return null;
  let first = fence.lines.indexOf(line);
  while (0 < first && isTableLine(fence.lines[first - 1]!)) first -= 1;
  const head = readTableLine(fence.lines[first]!, null);
  const cell = head.cells[cellAt(readTableLine(line, head), span.start)];
  const column = cell === undefined ? null : columnName(cell, measurement.columns);
  const unit = column?.kind === 'term' || column?.kind === 'circular part' ? column.unit : [];
  return unit.length > 0 ? unitWord(tokensText(unit)) : null;
}

function cellAt({ cells }: TableLine, at: number): number {
  return cells.findIndex(({ span }) => span.start <= at && at <= span.end);
}
