import { type Diagnostic, Uri } from 'vscode';

export const SHOW_RULE = 'leastwise.showRule';

/** Gives the rule of each finding a link to its page. */
export function withRuleLinks<Found extends Diagnostic>(diagnostics: readonly Found[]): Found[] {
  return diagnostics.map(diagnostic => {
    const rule = ruleOf(diagnostic);
    if (rule !== null) diagnostic.code = { value: rule, target: pageLink(rule) };
    return diagnostic;
  });
}

/** The rule that a finding of ours comes from; null for what somebody else says. */
export function ruleOf({ source, code }: Diagnostic): string | null {
  if (source !== 'leastwise') return null;
  const name = typeof code === 'object' ? code.value : code;
  return typeof name === 'string' ? name : null;
}

function pageLink(rule: string): Uri {
  return Uri.parse(`command:${SHOW_RULE}?${encodeURIComponent(JSON.stringify([rule]))}`);
}
