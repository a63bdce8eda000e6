import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { PROJECT } from './workspace.mjs';

const VSCODE = join(import.meta.dirname, 'node_modules/code-server/lib/vscode');
const MARKDOWN = join(VSCODE, 'extensions/markdown-basics/syntaxes/markdown.tmLanguage.json');

/**
 * Takes a Markdown text apart as the editor does for its colours: with the editor's own tokenizer and Markdown
 * grammar, and the grammars that the manifest names.
 *
 * @returns {Promise<(text: string) => { line: number, text: string, scopes: string[] }[]>}
 */
export async function tokenizer() {
  const require = createRequire(join(VSCODE, 'package.json'));
  const textmate = require('vscode-textmate');
  const oniguruma = require('vscode-oniguruma');
  await oniguruma.loadWASM(readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm')).buffer);
  const { contributes } = JSON.parse(readFileSync(join(PROJECT, 'package.json'), 'utf8'));
  const paths = new Map(contributes.grammars.map(({ scopeName, path }) => [scopeName, join(PROJECT, path)]));
  paths.set('text.html.markdown', MARKDOWN);
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: patterns => new oniguruma.OnigScanner(patterns),
      createOnigString: text => new oniguruma.OnigString(text),
    }),
    loadGrammar: async scopeName => {
      const path = paths.get(scopeName);
      return path === undefined ? null : textmate.parseRawGrammar(readFileSync(path, 'utf8'), path);
    },
    getInjections: scopeName =>
      contributes.grammars
        .filter(({ injectTo = [] }) => injectTo.includes(scopeName))
        .map(each => each.scopeName),
  });
  const grammar = await registry.loadGrammar('text.html.markdown');
  return text => {
    let state = textmate.INITIAL;
    return text.split('\n').flatMap((content, line) => {
      const { tokens, ruleStack } = grammar.tokenizeLine(content, state);
      state = ruleStack;
      return tokens.map(({ startIndex, endIndex, scopes }) => ({
        line,
        text: content.slice(startIndex, endIndex),
        scopes,
      }));
    });
  };
}
