import { dimensionText } from '../engine/dimension.ts';
import type { Trouble } from '../engine/quantity.ts';

/** Why an arithmetic step does not work, in a teacher's words. */
export function troubleText(trouble: Trouble): string {
  switch (trouble.kind) {
    case 'mismatch':
      return `${dimensionText(trouble.left)} and ${dimensionText(trouble.right)} are different kinds of quantity, so they cannot be added, subtracted or compared`;
    case 'zero-division':
      return 'this divides by nought, which gives no value';
    case 'root-of-letters':
      return 'this has no value: a root of letters';
    case 'domain':
      return `this has no value: ${trouble.what}`;
    case 'too-large':
      return 'this value grows past what the tool works with (some 300 digits)';
  }
}
