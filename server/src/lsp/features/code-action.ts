import {
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
  type Diagnostic,
  LSPErrorCodes,
  ResponseError,
} from 'vscode-languageserver';
import type { Action } from '../../actions/action.ts';
import { actionsAt } from '../../actions/all.ts';
import { fixAllEdits } from '../../actions/fix-all.ts';
import { examineStructure } from '../../checks/examine.ts';
import type { Edit } from '../../language/problem.ts';
import { type Span, spanOf } from '../../language/syntax.ts';
import { diagnosticFrom, spanFrom, workspaceEditFrom } from '../convert.ts';
import type { Feature, Server } from '../feature.ts';
import { noteNameOf, withNewFile } from '../new-file.ts';
import type { OpenNote } from '../open-notes.ts';

const FIX_ALL = `${CodeActionKind.SourceFixAll}.leastwise`;

/** By what an action is found again when its edits are asked for. */
interface ActionData {
  readonly uri: string;
  readonly version: number;
  readonly start: number;
  readonly end: number;
  /** Its place in the list of all actions there; null for the one that makes all sure fixes. */
  readonly index: number | null;
}

/** Quick fixes and workings at the cursor. Their edits are worked out only for the one that is chosen. */
export const codeAction: Feature = {
  announced: client => ({
    codeActionProvider: {
      codeActionKinds: [
        CodeActionKind.QuickFix,
        CodeActionKind.Refactor,
        CodeActionKind.RefactorRewrite,
        FIX_ALL,
      ],
      resolveProvider: canResolve(client.textDocument?.codeAction),
    },
  }),
  listen(server) {
    const showsUnable = server.client.textDocument?.codeAction?.disabledSupport === true;
    const isLazy = canResolve(server.client.textDocument?.codeAction);
    server.connection.onCodeAction(
      server.answering<CodeActionParams, CodeAction[]>('finding what can be done here', [], params => {
        const open = server.note(params.textDocument.uri);
        if (open === null) return [];
        const all = codeActionsAt(open, params, noteNameOf(server, open));
        const offered = showsUnable ? all : all.filter(({ disabled }) => disabled === undefined);
        return isLazy ? offered : offered.map(action => withEdit(server, open, action)).filter(hasEdit);
      }),
    );
    server.connection.onCodeActionResolve((action, token) =>
      server.answering<CodeAction, CodeAction>('working out the change', action, () =>
        resolved(server, action),
      )(action, token),
    );
  },
};

/** What an editor may offer for a selection of a note, without edits. */
function codeActionsAt(
  open: OpenNote,
  { range, context }: CodeActionParams,
  noteName: string | null = null,
): CodeAction[] {
  const { document, checked } = open;
  const span = spanFrom(document, range);
  const isAsked = (kind: string) =>
    context.only === undefined || context.only.some(asked => includes(asked, kind));
  const actions = isAskedForAny(context.only) ? actionsIn(open, span, noteName) : [];
  const offered = actions.flatMap((action, index): CodeAction[] =>
    isAsked(action.kind)
      ? [
          {
            title: action.title,
            kind: action.kind,
            ...answered(open, action, context.diagnostics),
            ...(action.isSure ? { isPreferred: true } : {}),
            ...(action.unable === undefined ? {} : { disabled: { reason: action.unable } }),
            data: dataOf(open, span, index),
          },
        ]
      : [],
  );
  const isMendable = checked.findings.some(
    finding => finding.waived === null && finding.fixes[0]?.sure === true,
  );
  if (!isMendable || !isAsked(FIX_ALL)) return offered;
  return [
    ...offered,
    { title: 'Make all sure corrections in this note', kind: FIX_ALL, data: dataOf(open, span, null) },
  ];
}

/** Whether anything but "fix all" is asked for, which is not found at the cursor. */
function isAskedForAny(only: readonly string[] | undefined): boolean {
  return only === undefined || only.some(kind => !includes(CodeActionKind.Source, kind));
}

/** Whether a kind is another one or a part of it: `source.fixAll.leastwise` is a part of `source`. */
function includes(whole: string, part: string): boolean {
  return whole === '' || part === whole || part.startsWith(`${whole}.`);
}

function actionsIn(
  { text, settings, note, checked }: OpenNote,
  span: Span,
  noteName: string | null,
): readonly Action[] {
  // A note without a block can still be given one.
  const present = note ?? examineStructure(text, { fences: [], codeSpans: [] }, { settings });
  return actionsAt({ text, note: present, checked, span, noteName });
}

/** The diagnostics among those of the request that an action mends. */
function answered(
  { document }: OpenNote,
  { finding }: Action,
  asked: readonly Diagnostic[],
): { readonly diagnostics?: Diagnostic[] } {
  if (finding === null) return {};
  const own = diagnosticFrom(document, finding);
  const mended = asked.filter(
    each =>
      each.code === own.code &&
      each.message === own.message &&
      each.range.start.line === own.range.start.line &&
      each.range.start.character === own.range.start.character,
  );
  return mended.length === 0 ? {} : { diagnostics: mended };
}

function dataOf({ document }: OpenNote, { start, end }: Span, index: number | null): ActionData {
  return { uri: document.uri, version: document.version, start, end, index };
}

/** The action with its edits; refused where the note was changed since it was offered. */
function resolved(server: Server, action: CodeAction): CodeAction | ResponseError<never> {
  const data = action.data as ActionData;
  const open = server.note(data.uri);
  if (open === null || open.document.version !== data.version)
    return new ResponseError<never>(LSPErrorCodes.ContentModified, 'the note has changed in the meantime');
  return withEdit(server, open, action);
}

function withEdit(server: Server, open: OpenNote, action: CodeAction): CodeAction {
  const { edits, file } = changeOf(open, action, noteNameOf(server, open));
  if (edits.length === 0 && file === null) return action;
  const isVersioned = server.client.workspace?.workspaceEdit?.documentChanges === true;
  const edit = workspaceEditFrom(open.document, edits, isVersioned);
  return { ...action, edit: file === null ? edit : withNewFile(edit, open.document.uri, file) };
}

interface Change {
  readonly edits: readonly Edit[];
  readonly file: { readonly name: string; readonly content: string } | null;
}

function changeOf(open: OpenNote, { title, data }: CodeAction, noteName: string | null): Change {
  const { start, end, index } = data as ActionData;
  if (index === null) return { edits: fixAllEdits(open.text, open.settings), file: null };
  const action = actionsIn(open, spanOf(start, end), noteName)[index];
  if (action?.title !== title) return { edits: [], file: null };
  return { edits: action.edits(), file: action.newFile?.() ?? null };
}

function hasEdit({ edit }: CodeAction): boolean {
  return edit !== undefined;
}

function canResolve(
  client:
    | { readonly resolveSupport?: { readonly properties: readonly string[] }; readonly dataSupport?: boolean }
    | undefined,
): boolean {
  return client?.dataSupport === true && client.resolveSupport?.properties.includes('edit') === true;
}
