import { type Diagnostic, Uri } from 'vscode';

/** Gives the rule of each finding a link to its page, which the extension brings along. */
export function withRuleLinks<Found extends Diagnostic>(
  extension: Uri,
  diagnostics: readonly Found[],
): Found[] {
  return diagnostics.map(diagnostic => {
    const rule = ruleOf(diagnostic);
    const page = rule === null ? null : pageOf(extension, rule);
    if (rule !== null && page !== null) diagnostic.code = { value: rule, target: page };
    return diagnostic;
  });
}

/** The page of a rule; null for what is no rule's name, for nothing else may lead to a file. */
export function pageOf(extension: Uri, rule: string): Uri | null {
  if (!/^[a-z]+(?:-[a-z]+)*$/.test(rule)) return null;
  return Uri.joinPath(extension, 'server/reference/rules', `${rule}.md`);
}

/** The rule that a finding of ours comes from; null for what somebody else says. */
export function ruleOf({ source, code }: Diagnostic): string | null {
  if (source !== 'leastwise') return null;
  const name = typeof code === 'object' ? code.value : code;
  return typeof name === 'string' ? name : null;
}
