import type { CheckedNote, Finding } from '../../server/src/checks/finding.ts';

/** A finding with nothing in it but what a test says. */
export function aFinding(parts: Partial<Finding>): Finding {
  return {
    rule: 'wrong-value',
    severity: 'error',
    message: 'the reading is 2.484 cm',
    span: { start: 0, end: 1 },
    block: null,
    term: null,
    row: null,
    stated: null,
    computed: null,
    slip: null,
    cause: null,
    related: [],
    fixes: [],
    waived: null,
    ...parts,
  };
}

/** A check that finds what a test says wherever a text stands, markers left out; fences named measurement are its blocks. */
export function checkThatFinds(wanted: Readonly<Record<string, Partial<Finding>>>) {
  return (text: string): CheckedNote => {
    const blocks = [...text.matchAll(/^( *)```measurement[\s\S]*?^\1```$/gm)].map(fence => ({
      name: null,
      span: { start: fence.index, end: fence.index + fence[0].length },
      quantities: [],
      claims: 1,
    }));
    const findings: Finding[] = [];
    for (const [words, parts] of Object.entries(wanted)) {
      for (let at = text.indexOf(words); at !== -1; at = text.indexOf(words, at + 1)) {
        const before = text.slice(text.lastIndexOf('\n', at) + 1, at);
        if (/#|<!--/.test(before)) continue;
        findings.push(aFinding({ span: { start: at, end: at + words.length }, ...parts }));
      }
    }
    return { blocks, findings: findings.sort((a, b) => a.span.start - b.span.start) };
  };
}
