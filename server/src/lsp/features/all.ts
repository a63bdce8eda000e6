import type { Feature } from '../feature.ts';
import { codeAction } from './code-action.ts';
import { completion } from './completion.ts';
import { completionResolve } from './completion-resolve.ts';
import { definition } from './definition.ts';
import { diagnostics } from './diagnostics.ts';
import { documentHighlight } from './document-highlight.ts';
import { documentSymbol } from './document-symbol.ts';
import { foldingRange } from './folding-range.ts';
import { formatting } from './formatting.ts';
import { hover } from './hover.ts';
import { inlayHint } from './inlay-hint.ts';
import { references } from './references.ts';
import { rename } from './rename.ts';
import { selectionRange } from './selection-range.ts';
import { semanticTokens } from './semantic-tokens.ts';
import { workspaceDiagnostics } from './workspace-diagnostics.ts';

/** All that an editor can ask for. */
export const FEATURES: readonly Feature[] = [
  diagnostics,
  workspaceDiagnostics,
  codeAction,
  hover,
  completion,
  completionResolve,
  inlayHint,
  semanticTokens,
  selectionRange,
  foldingRange,
  documentSymbol,
  definition,
  references,
  documentHighlight,
  rename,
  formatting,
];
