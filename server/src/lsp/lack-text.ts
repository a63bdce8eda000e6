import { troubleText } from '../checks/trouble-text.ts';
import type { Lack } from '../language/answer.ts';

/** Why there is no value, in a teacher's words; null where that is told at another place. */
export function lackText(lack: Lack): string | null {
  switch (lack.kind) {
    case 'missing':
    case 'impossible':
    case 'ambiguous':
    case 'circular':
    case 'limit':
      return lack.message;
    case 'trouble':
      return troubleText(lack.trouble);
    case 'unknown-name':
      return `${lack.word} stands for nothing in this block`;
    case 'two-readings':
      return `${lack.word} is both a unit and a name here, and both can be meant`;
    case 'reported':
      return null;
  }
}
