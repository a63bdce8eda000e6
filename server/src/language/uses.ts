import type { Measurement } from './measurement.ts';
import type { Problem } from './problem.ts';

/**
 * Lets each block that `uses` another take over all that the other records, except what it records itself.
 *
 * A scale, the zero checks and each observable are replaced one by one; a table replaces the other's table. References
 * in a ring and to no block are problems of the block that makes them.
 */
export function withUsedBlocks(
  measurements: readonly Measurement[],
  blockNames: readonly string[],
): readonly Measurement[] {
  if (measurements.every(measurement => measurement.uses === null)) return measurements;
  const byName = new Map<string, Measurement>();
  for (const measurement of measurements) {
    const key = measurement.name?.toLowerCase();
    if (key !== undefined && !byName.has(key)) byName.set(key, measurement);
  }
  const done = new Map<Measurement, Measurement>();
  const merge = (measurement: Measurement): Measurement => {
    const before = done.get(measurement);
    if (before !== undefined) return before;
    const merged = mergeOne(measurement);
    done.set(measurement, merged);
    return merged;
  };
  const mergeOne = (measurement: Measurement): Measurement => {
    const { uses } = measurement;
    if (uses === null) return measurement;
    const base = byName.get(uses.name);
    if (base === undefined) {
      const names = blockNames.slice(0, 8).join(', ');
      return withProblem(measurement, {
        rule: 'unknown-block',
        span: uses.span,
        message: `${uses.name} is no block of this note, so nothing is taken over; the blocks are ${names || 'all without a name'}`,
        fixes: [],
      });
    }
    const chain = chainOf(measurement, byName);
    if (chain === 'too-long') {
      return withProblem(measurement, {
        rule: 'limit',
        span: uses.span,
        message: `more than ${DEEPEST} blocks use one another here, so nothing of ${uses.name} is taken over`,
        fixes: [],
      });
    }
    if (chain === 'round') {
      return withProblem(measurement, {
        rule: 'circular-reference',
        span: uses.span,
        message: `this block uses ${uses.name}, which in turn rests on this block, so neither can be worked out`,
        fixes: [],
      });
    }
    return overlay(merge(base), measurement);
  };
  return measurements.map(merge);
}

/** Whether a block uses, directly or through others, itself, or more blocks in a row than are followed. */
function chainOf(
  measurement: Measurement,
  byName: ReadonlyMap<string, Measurement>,
): 'round' | 'too-long' | 'plain' {
  const seen = new Set<Measurement>();
  let next: Measurement | undefined = measurement;
  for (let step = 0; step <= DEEPEST; step++) {
    next = next.uses === null ? undefined : byName.get(next.uses.name);
    if (next === measurement) return 'round';
    // A round that others go is told where they begin it.
    if (next === undefined || seen.has(next)) return 'plain';
    seen.add(next);
  }
  return 'too-long';
}

/** So many blocks may take over from one another in a row. */
const DEEPEST = 20;

function withProblem(measurement: Measurement, problem: Problem): Measurement {
  return { ...measurement, problems: [...measurement.problems, problem] };
}

function overlay(base: Measurement, own: Measurement): Measurement {
  const scales = new Set(own.scales.map(record => record.scale));
  const observes = own.readings.size > 0 || own.rows.length > 0;
  const subjects = new Map([...base.subjects, ...own.subjects]);
  const closes = own.closed.length > 0 || own.givens.has('zero error') || own.givens.has('zero correction');
  const unread = [...base.unread].filter(name => name !== 'closed' || !closes);
  return {
    ...own,
    instrument: own.instrument ?? base.instrument,
    scales: [...base.scales.filter(record => !scales.has(record.scale)), ...own.scales],
    counts: new Map([...base.counts, ...own.counts]),
    runsBackward: own.runsBackward || base.runsBackward,
    range: own.range ?? base.range,
    readings: new Map([...base.readings, ...own.readings]),
    rows: observes ? own.rows : base.rows,
    columns: observes && own.rows.length > 0 ? own.columns : base.columns,
    closed: closes ? own.closed : base.closed,
    givens: new Map([...base.givens, ...own.givens]),
    own: new Map([...base.own, ...own.own]),
    symbols: new Map([...base.symbols, ...own.symbols]),
    errorRule: own.errorRule ?? base.errorRule,
    coverageFactor: own.coverageFactor ?? base.coverageFactor,
    subjects,
    broken: new Set([...unread, ...own.broken]),
    unread: new Set([...unread, ...own.unread]),
    sentences: new Set([...base.sentences, ...own.sentences]),
  };
}
