import type { Feature } from '../feature.ts';
import { codeAction } from './code-action.ts';
import { definition } from './definition.ts';
import { diagnostics } from './diagnostics.ts';
import { documentHighlight } from './document-highlight.ts';
import { documentSymbol } from './document-symbol.ts';
import { foldingRange } from './folding-range.ts';
import { hover } from './hover.ts';
import { references } from './references.ts';
import { rename } from './rename.ts';

/** All that an editor can ask for. */
export const FEATURES: readonly Feature[] = [
  diagnostics,
  codeAction,
  hover,
  foldingRange,
  documentSymbol,
  definition,
  references,
  documentHighlight,
  rename,
];
