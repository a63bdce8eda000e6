import {
  LSPErrorCodes,
  type PrepareRenameParams,
  type Range,
  type RenameParams,
  ResponseError,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { withEdits } from '../../actions/settled-edits.ts';
import { tokenize } from '../../language/lexer.ts';
import { isSymbol } from '../../language/names.ts';
import type { Edit } from '../../language/problem.ts';
import { findTerm, type Term } from '../../language/terms.ts';
import { offsetFrom, rangeFrom, workspaceEditFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { namedAt } from '../named-at.ts';
import type { NamedKind, NamedPlace } from '../naming.ts';
import { noteDocument } from '../note-document.ts';
import type { OpenNote } from '../open-notes.ts';
import { saysTheSame } from '../says-the-same.ts';

/** Renames a block, a row or a quantity in all its places; refused where the note would then say something else. */
export const rename: Feature = {
  announced: client => ({
    renameProvider: client.textDocument?.rename?.prepareSupport === true ? { prepareProvider: true } : true,
  }),
  listen(server) {
    const { connection } = server;
    connection.onPrepareRename(
      server.answering<PrepareRenameParams, { range: Range; placeholder: string } | null>(
        'looking for the name',
        null,
        ({ textDocument, position }) => {
          const open = server.note(textDocument.uri);
          const at = open && namedAt(open, offsetFrom(open.document, position))?.at;
          if (!open || !at) return null;
          const { start, end } = at.span;
          // The name as it is typed there: `Bore of hub`, `θ`.
          return { range: rangeFrom(open.document, at.span), placeholder: open.text.slice(start, end) };
        },
      ),
    );
    connection.onRenameRequest(
      server.answering<RenameParams, WorkspaceEdit | null>(
        'renaming',
        null,
        ({ textDocument, position, newName }) => {
          const open = server.note(textDocument.uri);
          if (open === null) return null;
          const renamed = renamingAt(open, offsetFrom(open.document, position), newName.trim());
          if (typeof renamed === 'string')
            return new ResponseError<never>(LSPErrorCodes.RequestFailed, renamed);
          const isVersioned = server.client.workspace?.workspaceEdit?.documentChanges === true;
          return renamed && workspaceEditFrom(open.document, renamed, isVersioned);
        },
      ),
    );
  },
};

/** The edits that rename what stands at a place, or why it cannot be called so; null where nothing has a name. */
export function renamingAt(open: OpenNote, offset: number, newName: string): readonly Edit[] | string | null {
  const named = namedAt(open, offset);
  if (named === null) return null;
  const { at, all } = named;
  const unfit = whyUnfit(at, newName);
  if (unfit !== null) return unfit;
  const edits = all
    .filter(({ spelling }) => alike(at.kind, spelling) === alike(at.kind, at.spelling))
    .map(({ span }): Edit => ({ span, newText: newName }));
  const renamed = withEdits(open.text, edits);
  const term = at.kind === 'quantity' ? findTerm(newName) : null;
  if (term !== null && !isNamedStill(open, renamed, edits, at)) return standsFor(newName, term);
  return saysTheSame(open, renamed, offset)
    ? edits
    : `the note would say something else if ${at.spelling} were called ${newName}`;
}

/** Letters of a scale that may be symbols as well, where a block says so: `volume V = 3.2 cm^3`. */
const MAY_BE_SYMBOLS: ReadonlySet<string> = new Set(['S', 'V', 'n', 'N']);

function standsFor(name: string, term: Term): string {
  return `${name} already stands for the ${term.name}`;
}

/** Whether a renamed quantity is one of the note's own in all of its places. */
function isNamedStill(
  open: OpenNote,
  renamed: string,
  edits: readonly Edit[],
  { span }: NamedPlace,
): boolean {
  const moved = edits
    .filter(edit => edit.span.start < span.start)
    .reduce((by, edit) => by + edit.newText.length - (edit.span.end - edit.span.start), 0);
  const { uri, languageId } = open.document;
  const document = noteDocument(uri, languageId, 0, renamed);
  const named = namedAt({ document, text: renamed, settings: open.settings }, span.start + moved);
  return named?.at.kind === 'quantity' && named.all.length >= edits.length;
}

/** A symbol means itself only; blocks, rows and words do not mind capitals. */
function alike(kind: NamedKind, spelling: string): string {
  return kind === 'quantity' && isSymbol(spelling)
    ? spelling
    : spelling.toLowerCase().replace(/[\s_-]+/g, '-');
}

function whyUnfit({ kind, spelling }: NamedPlace, newName: string): string | null {
  switch (kind) {
    case 'block':
      return /^[\p{L}\p{M}\p{N}]+(?:-+[\p{L}\p{M}\p{N}]+)*$/u.test(newName)
        ? null
        : "a block's name is made of letters, digits and hyphens";
    case 'label':
      return /^[\p{L}\p{M}\p{N}][\p{L}\p{M}\p{N} _-]*$/u.test(newName)
        ? null
        : 'the label of a row is made of letters, digits, spaces and hyphens';
    case 'quantity': {
      const term = findTerm(newName);
      if (term !== null && !MAY_BE_SYMBOLS.has(newName)) return standsFor(newName, term);
      if (isSymbol(spelling))
        return isTypedSymbol(newName)
          ? null
          : 'a symbol is one or two letters or a Greek letter, with digits or a subscript behind it';
      return /^[\p{L}\p{M}]+(?:[ '’-][\p{L}\p{M}]+)*$/u.test(newName)
        ? null
        : 'the name of a quantity is made of words';
    }
  }
}

/** Whether a name is a symbol as people type one, `θ` or `D₁`. */
function isTypedSymbol(name: string): boolean {
  const [word, ...others] = tokenize(name, 0).tokens;
  return word?.kind === 'word' && others.length === 0 && isSymbol(word.text);
}
