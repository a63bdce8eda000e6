import type { Rule } from '../checks/rule.ts';
import type { Slip } from '../engine/slips/slip.ts';
import type { Instrument } from '../language/instruments.ts';
import type { Term, TermKind } from '../language/terms.ts';

/** What the reference knows about one name, whichever declaration it stands in. */
export interface Entry {
  readonly kind: 'rule' | 'slip' | 'term' | 'instrument';
  readonly name: string;
  /** Other names that mean the same. */
  readonly also: readonly string[];
  /** What sort of rule, slip, term or instrument it is, in a few words. */
  readonly sort: string;
  readonly summary: string;
  /** Paragraphs, parted by blank lines; empty where the summary says all. */
  readonly explanation: string;
  readonly formula: string | null;
  readonly sign: string | null;
  readonly unit: string | null;
  /** The usual caution with an instrument that can hurt. */
  readonly caution: string | null;
  /** A whole note for a rule or a slip, a line for a term or an instrument. */
  readonly example: string;
  readonly fixedExample: string | null;
}

export function ruleEntry(rule: Rule): Entry {
  return {
    kind: 'rule',
    name: rule.name,
    also: [],
    sort:
      rule.severity === 'error' ? 'a rule; what it finds is an error' : 'a rule; what it finds is a warning',
    summary: rule.summary,
    explanation: rule.explanation,
    formula: null,
    sign: null,
    unit: null,
    caution: null,
    example: rule.example,
    fixedExample: rule.fixedExample ?? null,
  };
}

export function slipEntry(slip: Slip): Entry {
  return {
    kind: 'slip',
    name: slip.name,
    also: [],
    sort: 'a slip; it may explain a wrong value',
    summary: slip.summary,
    explanation: slip.explanation,
    formula: slip.formula,
    sign: null,
    unit: null,
    caution: null,
    example: slip.example,
    fixedExample: null,
  };
}

export function termEntry(term: Term): Entry {
  return {
    kind: 'term',
    name: term.name,
    also: term.also,
    sort: `a term; ${sortOfTerm(term.kind)}`,
    summary: term.meaning,
    explanation: '',
    formula: term.formula ?? null,
    sign: term.sign ?? null,
    unit: term.unit ?? null,
    caution: null,
    example: term.example,
    fixedExample: null,
  };
}

export function instrumentEntry({ name, also, meaning, caution }: Instrument): Entry {
  return {
    kind: 'instrument',
    name,
    also,
    sort: 'an instrument',
    summary: meaning,
    explanation: '',
    formula: null,
    sign: null,
    unit: null,
    caution,
    example: `instrument: ${name}`,
    fixedExample: null,
  };
}

/** How a term takes part in a block, in words. */
function sortOfTerm(kind: TermKind): string {
  switch (kind) {
    case 'record':
      return 'recorded with a colon';
    case 'scale':
      return 'a scale, recorded as an equation';
    case 'division':
      return 'the value of a division';
    case 'observable':
      return 'observed, recorded with a colon';
    case 'computed':
      return 'worked out, or given in the question';
    case 'statistic':
      return 'worked out for another quantity';
  }
}
