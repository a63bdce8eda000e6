import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { examineNote } from '../../server/src/checks/examine.ts';
import type { NoteCheck } from '../../server/src/checks/note-check.ts';
import type { Expression } from '../../server/src/engine/expression.ts';
import * as Q from '../../server/src/engine/quantity.ts';
import * as R from '../../server/src/engine/rational.ts';
import * as S from '../../server/src/engine/scalar.ts';
import { DIMENSIONLESS, type Unit } from '../../server/src/engine/unit.ts';
import { linesBelow } from '../../server/src/language/line-edits.ts';
import type { Edit } from '../../server/src/language/problem.ts';
import { claimLine } from '../../server/src/render/derivation-lines.ts';
import { derivationMarkdown } from '../../server/src/render/derivation-markdown.ts';
import { derivationText } from '../../server/src/render/derivation-text.ts';
import { blockWorkings } from '../../server/src/workings/working.ts';
import { fencedBlock } from '../properties/generators/bench-note.ts';
import type { Draw } from '../properties/generators/draw.ts';
import { drawWorkedList, drawWorkedSpherometer } from '../properties/generators/worked-bench.ts';
import { drawWorkedPowers } from '../properties/generators/worked-derived.ts';
import { drawWorkedLetters } from '../properties/generators/worked-question.ts';
import { drawWorkedScrew } from '../properties/generators/worked-screw.ts';
import { drawWorkedVernier } from '../properties/generators/worked-vernier.ts';
import { parse, wordNames } from '../support/parse-expression.ts';
import { drawSeed } from '../support/seed.ts';
import { type ReadResult, type ReadValue, readResults } from './math-reader.ts';
import { katexComplaint, mathPieces } from './strict-katex.ts';

// The second opinion on every number: the block's own facts, asked for what a claim of the same left side claims.
drawSeed('workings as Markdown');

const WAYS = [null, 'scales'] as const;

/** Checks the worked solutions of all blocks of a note, and tells how many numbers were read back. */
function checkWorkings(text: string): number {
  const note = examineNote(text);
  if (note === null) return 0;
  const before = new Set<string>();
  let count = 0;
  for (const way of WAYS) {
    const worked = note.measurements.map((_, block) => workedBlock(note, block, way));
    // Most notes are worked out alike either way.
    const all = worked.map(({ markdown }) => markdown).join('\n');
    if (!before.has(all)) count += checkClaims(note, worked);
    before.add(all);
  }
  return count;
}

interface WorkedBlock {
  readonly markdown: string;
  /** What a block can claim of it, with what was read back. */
  readonly claims: readonly { readonly line: string; readonly result: ReadResult }[];
}

function workedBlock(note: NoteCheck, block: number, way: (typeof WAYS)[number]): WorkedBlock {
  const derivations = blockWorkings(note, block, { way }).map(({ derivation }) => derivation);
  const markdown = derivationMarkdown(derivations);
  for (const { latex, isDisplayed } of mathPieces(markdown)) {
    expect(katexComplaint(latex, isDisplayed), markdown).toBeNull();
    expect(latex).not.toContain('undefined');
  }
  expect(derivationText(derivations)).not.toContain('undefined');
  const lines = derivations.flatMap(({ steps }) =>
    steps.filter(step => step.kind === 'line' && step.links.length > 0),
  );
  const results = readResults(markdown);
  expect(results, markdown).toHaveLength(lines.length);
  const claims = lines.flatMap((step, at) => {
    const line = claimLine(step);
    return line === null ? [] : [{ line, result: results[at]! }];
  });
  return { markdown, claims };
}

/** Puts the claims into their blocks, so that the note's own reading of their left sides says what they claim. */
function checkClaims(note: NoteCheck, worked: readonly WorkedBlock[]): number {
  const edits = worked.map(({ claims }, block) => {
    const { fence } = note.measurements[block]!;
    const last = fence.lines.findLast(line => line.text.trim() !== '') ?? null;
    return linesBelow(
      note.text,
      fence,
      last,
      claims.map(({ line }) => line),
    );
  });
  const claimed = examineNote(withInserted(note.text, edits))!;
  let count = 0;
  let shift = 0;
  for (const [block, { span, newText }] of edits.entries()) {
    const facts = claimed.facts.block(block);
    const start = span.start + shift;
    shift += newText.length;
    const { claims } = worked[block]!;
    const inserted = facts.measurement.claims.filter(
      claim => start <= claim.span.start && claim.span.start < start + newText.length && !claim.inTable,
    );
    expect(
      inserted.map(claim => claim.subjectText),
      newText,
    ).toHaveLength(claims.length);
    for (const [at, { line, result }] of claims.entries()) {
      const claim = inserted[at]!;
      const answer = facts.value(claim.subject);
      expect(answer.ok, line).toBe(true);
      if (!answer.ok || result.value === null) continue;
      const right = claim.times === null ? answer : timesOf(claim.times, answer.quantity);
      if (!right.ok) continue;
      expectSame(result.value, result.relation, right.quantity, line);
      count += 1;
    }
  }
  return count;
}

/** The blocks stand in the note from the top down, and so do their edits. */
function withInserted(text: string, edits: readonly Edit[]): string {
  return edits.reduceRight(
    (now, { span, newText }) => now.slice(0, span.start) + newText + now.slice(span.end),
    text,
  );
}

/** `10 VSD = …` speaks of ten of them. */
function timesOf(count: Expression, quantity: Q.Quantity): Q.Outcome {
  return count.kind === 'literal'
    ? Q.multiply(count.quantity, quantity)
    : { ok: false, trouble: { kind: 'domain', what: 'a count in letters' } };
}

function expectSame(read: ReadValue, relation: '=' | '≈', right: Q.Quantity, line: string): void {
  const number = Q.inUnit(right, unitRead(read.unit));
  const value = number === null ? null : S.realValue(number);
  expect(value, `${line} in ${read.unit}`).not.toBeNull();
  const off = R.abs(R.subtract(read.value, value!));
  if (relation === '=') expect(R.toFractionText(read.value), line).toBe(R.toFractionText(value!));
  else
    expect(
      R.compare(off, R.multiply(read.place ?? R.ZERO, R.HALF)),
      `${line}: ${R.toFractionText(value!)}`,
    ).not.toBe(1);
}

const NO_NAMES = wordNames();

function unitRead(text: string): Unit {
  if (text === '') return DIMENSIONLESS;
  const { expression } = parse(`1 ${text}`, { names: NO_NAMES, mode: 'value' });
  const unit = expression?.kind === 'literal' ? expression.quantity.unit : null;
  if (unit === null) throw new Error(`what was read is no unit: ${text}`);
  return unit;
}

function notesIn(folder: string): string[] {
  return readdirSync(folder)
    .filter(name => name.endsWith('.md'))
    .map(name => `${folder}/${name}`);
}

describe('the worked solutions of the notes compile, and their numbers are the right ones', () => {
  test.each(notesIn('examples'))('%s', path => {
    expect(checkWorkings(readFileSync(path, 'utf8'))).toBeGreaterThan(6);
  });

  test.each([...notesIn('examples/careless'), ...notesIn('tests/published')])('%s', path => {
    checkWorkings(readFileSync(path, 'utf8'));
  });
});

describe('and those of blocks drawn by chance', () => {
  test.each<[string, (draw: Draw) => string]>([
    ['a vernier', draw => blockText(drawWorkedVernier(draw, 'axle'))],
    ['a screw', draw => blockText(drawWorkedScrew(draw, 'ball'))],
    ['a spherometer', draw => drawWorkedSpherometer(draw, 'dish').join('\n')],
    ['repeated times', draw => drawWorkedList(draw, 'pendulum').join('\n')],
    ['a product of powers', draw => drawWorkedPowers(draw, 'spring').join('\n')],
    ['letters', draw => drawWorkedLetters(draw, 'letters').join('\n')],
  ])('%s', (_kind, drawText) => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        checkWorkings(drawText(draw));
      }),
      { numRuns: 12 },
    );
  });
});

function blockText(block: { readonly lines: readonly string[]; readonly name: string }): string {
  return fencedBlock(block.lines, block.name);
}
