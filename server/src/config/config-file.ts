import {
  findNodeAtLocation,
  getNodeValue,
  type Node,
  type ParseError,
  parseTree,
  printParseErrorCode,
} from 'jsonc-parser';
import type { Settings } from '../checks/settings.ts';
import { type Span, spanOf } from '../language/syntax.ts';
import { readSettings, type SettingTrouble } from './read-settings.ts';

/** What the file is called, in whichever folder it stands. */
export const CONFIG_NAME = 'leastwise.config.json';

/** What a configuration file says, and what is wrong with it, each at its place. */
export interface ConfigFile {
  readonly settings: Partial<Settings>;
  readonly troubles: readonly { readonly span: Span; readonly message: string }[];
}

/** Longer than any configuration that somebody wrote. */
const LONGEST = 100_000;

/**
 * Reads the text of a configuration file. What can be read of a broken one holds: a slip of the pen must not give away
 * what a student is still to work out. `folder` is the whole path of the one that the file stands in, where that is known.
 */
export function readConfigFile(text: string, folder: string | null = null): ConfigFile {
  if (text.length > LONGEST)
    return {
      settings: {},
      troubles: [{ span: spanOf(0, 1), message: `a configuration may be ${LONGEST} signs long at most` }],
    };
  const errors: ParseError[] = [];
  const tree = treeOf(text, errors);
  if (tree === null)
    return {
      settings: {},
      troubles: [{ span: spanOf(0, 1), message: 'this is nested too deeply to be read' }],
    };
  const [error] = errors;
  if (tree === undefined)
    return { settings: {}, troubles: [error === undefined ? nothingIn(text) : jsonTrouble(text, error)] };
  const { settings, troubles } = readSettings(getNodeValue(tree), true, folder);
  return {
    settings,
    troubles:
      error === undefined
        ? [
            ...troubles.map(each => ({ span: placeOf(tree, each), message: each.message })),
            ...writtenTwice(tree),
          ]
        : [jsonTrouble(text, error)],
  };
}

/** Names that stand twice in one object: of these the last holds, which nobody sees. */
function writtenTwice(node: Node): ConfigFile['troubles'] {
  const children = node.children ?? [];
  const names = node.type === 'object' ? children.flatMap(({ children: [name] = [] }) => name ?? []) : [];
  const doubled = names.filter((name, index) =>
    names.slice(0, index).some(other => other.value === name.value),
  );
  return [
    ...doubled.map(({ offset, length, value }) => ({
      span: spanOf(offset, offset + length),
      message: `${value} is written twice; only this last one holds`,
    })),
    ...children.flatMap(writtenTwice),
  ];
}

/** The values with their places; null where they are nested too deeply, undefined where there are none. */
function treeOf(text: string, errors: ParseError[]): Node | null | undefined {
  try {
    // A byte-order mark is no part of the values.
    return parseTree(text.replace(/^\ufeff/, ' '), errors, { disallowComments: true });
  } catch {
    return null;
  }
}

function nothingIn(text: string): ConfigFile['troubles'][number] {
  return { span: spanOf(0, text.length), message: EMPTY };
}

const EMPTY = 'this file is empty; where nothing is to be set write `{}`';

function jsonTrouble(text: string, { error, offset, length }: ParseError): ConfigFile['troubles'][number] {
  if (text.trim().replace('\ufeff', '') === '') return nothingIn(text);
  return { span: spanOf(offset, offset + length), message: `this is not JSON: ${reasonOf(error)}` };
}

function reasonOf(error: ParseError['error']): string {
  switch (printParseErrorCode(error)) {
    case 'CommaExpected':
      return 'a comma is missing before it';
    case 'ColonExpected':
      return 'a colon is missing before it';
    case 'PropertyNameExpected':
      return 'a name in double quotes has to stand here';
    case 'ValueExpected':
      return 'a value has to stand here';
    case 'CloseBraceExpected':
      return 'the brace } that closes it is missing';
    case 'CloseBracketExpected':
      return 'the bracket ] that closes it is missing';
    case 'EndOfFileExpected':
      return 'nothing may follow behind the last brace';
    case 'InvalidCommentToken':
    case 'UnexpectedEndOfComment':
      return 'a comment may not stand here';
    case 'UnexpectedEndOfString':
      return 'the quote that closes this text is missing';
    case 'InvalidNumberFormat':
    case 'UnexpectedEndOfNumber':
      return 'this number cannot be read';
    default:
      return 'this sign may not stand here';
  }
}

/** Where something wrong stands: the name of a setting, or what it holds. */
function placeOf(tree: Node, { path, at }: SettingTrouble): Span {
  const node = findNodeAtLocation(tree, [...path]) ?? tree;
  const shown = at === 'name' ? (node.parent?.children?.[0] ?? node) : node;
  return spanOf(shown.offset, shown.offset + shown.length);
}
