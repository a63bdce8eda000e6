import type { Span } from '../language/syntax.ts';
import type { CheckedBlock } from './finding.ts';

/** What a check gives of one block, with quantities that are worked out when a program asks for them: nobody else does. */
export function checkedBlock(
  block: Omit<CheckedBlock, 'quantities'>,
  quantities: () => CheckedBlock['quantities'],
): CheckedBlock {
  return new LateBlock(block, quantities);
}

/** A class, for V8 keeps all that the getter of a single object refers to until it collects everything. */
class LateBlock implements CheckedBlock {
  readonly name: string | null;
  readonly span: Span;
  readonly claims: number;
  readonly #work: () => CheckedBlock['quantities'];

  constructor(
    { name, span, claims }: Omit<CheckedBlock, 'quantities'>,
    work: () => CheckedBlock['quantities'],
  ) {
    this.name = name;
    this.span = span;
    this.claims = claims;
    this.#work = work;
  }

  get quantities(): CheckedBlock['quantities'] {
    return this.#work();
  }

  /** What a program writes down of it. */
  toJSON(): CheckedBlock {
    const { name, span, quantities, claims } = this;
    return { name, span, quantities, claims };
  }
}
