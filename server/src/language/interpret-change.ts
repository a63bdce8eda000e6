import { changeOf } from './changes.ts';
import { claimOf } from './claim.ts';
import { type Draft, replaceFix, report } from './draft.ts';
import { withoutLines } from './line-edits.ts';
import type { Stated, Subject } from './measurement.ts';
import { resolveName } from './names.ts';
import { isSign, type Statement } from './parser.ts';
import type { Fix } from './problem.ts';
import { readStated } from './stated.ts';

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;

/**
 * Reads `Delta m = 0.1 g` beside a quantity m: what is claimed of its absolute error. False where m has no name of its
 * own, so that Δm is a quantity by itself.
 */
export function interpretChange(draft: Draft, statement: Signed, symbol: string | null): boolean {
  const change = symbol === null ? null : changeOf(symbol);
  const subject = change === null ? null : resolveName(change.name, draft.names);
  if (change === null || subject?.kind !== 'statistic') return false;
  const isSingle = !statement.right.some(token => isSign(token, '=') || isSign(token, '?'));
  const [first] = statement.right;
  // What is claimed of the error of an exact value is its error.
  const isValue = first?.kind === 'number' && statement.right.length <= 3;
  if (isSingle && (statement.kind === 'record' || isValue))
    draft.errorRecords.push({ statement, of: change.of, subject });
  else draft.claims.push(claimOf(draft, statement, subject, null));
  return true;
}

/** A record of an error, `delta a: 0.2 cm`, to be read when all quantities are. */
export interface ErrorRecord {
  readonly statement: Signed;
  readonly of: string;
  readonly subject: Subject;
}

/** `delta a: 0.2 cm` belongs behind the value of a. It is read so where that has no error yet, and said. */
export function readErrorRecord(draft: Draft, { statement, of, subject }: ErrorRecord): void {
  const { leftText, span } = statement;
  const own = draft.own.get(of);
  const stated = own?.kind === 'value' ? own.given.stated : null;
  if (own?.kind !== 'value' || stated === null || !stated.isValue || stated.error !== null) {
    if (statement.kind === 'claim') {
      draft.claims.push(claimOf(draft, statement, subject, null));
      return;
    }
    const message = `${leftText} is the absolute error of ${of}, which is worked out here, so an equals sign stands behind it`;
    report(draft, 'not-plain', statement.sign, message, [
      replaceFix('Write an equals sign', statement.sign, ' =', true),
    ]);
    draft.claims.push(claimOf(draft, statement, subject, null));
    return;
  }
  const error = readStated(draft, statement.right, { mode: 'value', isRecord: true });
  if (error === null) return;
  const message = `${leftText} is the absolute error of ${of}, which stands behind its value: ${of}: ${stated.text} ± ${error.text}`;
  report(draft, 'not-plain', span, message, fixes(draft, statement, stated, error));
  const given: Stated = {
    ...stated,
    error: error.expression,
    spans: new Map([...stated.spans, ...error.spans]),
  };
  draft.own.set(of, { ...own, given: { ...own.given, stated: given } });
}

/** Writes the error behind the value. Only offered: a change by itself may be meant, which needs a name of its own. */
function fixes(draft: Draft, { span }: Signed, stated: Stated, error: Stated): readonly Fix[] {
  const without = withoutLines(draft.fence, span);
  if (without === null) return [];
  const end = { start: stated.span.end, end: stated.span.end };
  const edits = [{ span: end, newText: ` ± ${error.text}` }, without];
  return [{ title: `Write ± ${error.text} behind the value`, edits, sure: false }];
}
