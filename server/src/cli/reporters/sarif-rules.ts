import { RULES } from '../../checks/all.ts';

/** The rules as a SARIF report tells them, in the order of the reference, so that a host can explain each of its findings. */
export function sarifRules(): readonly object[] {
  return RULES.map(({ name, severity, summary, explanation, example }) => {
    const waiving = `A line \`waive: ${name}, reason\` in a block turns this rule off there.`;
    return {
      id: name,
      shortDescription: { text: sentence(summary) },
      fullDescription: { text: plain(explanation) },
      help: {
        text: plain(`${sentence(summary)}\n\n${explanation}\n\n${waiving}`),
        markdown: `${sentence(summary)}\n\n${explanation}\n\n${fenced(example)}\n\n${waiving}`,
      },
      helpUri: rulePage(name),
      defaultConfiguration: { level: severity },
    };
  });
}

/** The page of a rule, in the package that this command is run from: the bundle's folder has that of the reference beside it. */
function rulePage(name: string): string {
  return new URL(`../reference/rules/${name}.md`, import.meta.url).href;
}

/** A summary has no final stop, for messages need none. */
function sentence(summary: string): string {
  return `${summary.charAt(0).toUpperCase()}${summary.slice(1)}.`;
}

function plain(markdown: string): string {
  return markdown.trim().replaceAll('`', '');
}

/** A note quoted whole: the fence around it is longer than any in it. */
function fenced(note: string): string {
  const longest = Math.max(2, ...(note.match(/`+/g) ?? []).map(run => run.length));
  const fence = '`'.repeat(longest + 1);
  return `${fence}markdown\n${note.trim()}\n${fence}`;
}
