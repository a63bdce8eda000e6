import { expect, it } from 'vitest';
import type { CheckedNote } from '../../server/src/checks/finding.ts';
import { aFinding } from './fake-check.ts';
import { expectFixesMend, withFix } from './fixes.ts';

/** Finds every `wrong` and offers to write another word for it; finds every `worse` without a fix. */
function checkOffering(newText: string, sure: boolean) {
  return (text: string): CheckedNote => ({
    blocks: [],
    findings: [...text.matchAll(/wrong|worse/g)].map(({ 0: word, index }) => {
      const span = { start: index, end: index + word.length };
      const fixes = word === 'wrong' ? [{ title: `write ${newText}`, sure, edits: [{ span, newText }] }] : [];
      return aFinding({ rule: word === 'wrong' ? 'wrong-value' : 'carried-forward', span, fixes });
    }),
  });
}

it('makes edits from the last to the first', () => {
  const edits = [
    { span: { start: 0, end: 1 }, newText: 'AA' },
    { span: { start: 2, end: 2 }, newText: 'B' },
  ];
  expect(withFix('xyz', { title: 'write', sure: true, edits })).toBe('AAyBz');
});

it('passes where a fix removes its finding and adds none', () => {
  expect(() =>
    expectFixesMend('a = wrong\nb = wrong\nc = worse', checkOffering('right', true)),
  ).not.toThrow();
});

it('fails where the finding stays', () => {
  expect(() => expectFixesMend('a = wrong', checkOffering('also wrong', false))).toThrow(
    /leaves its finding/,
  );
});

it('fails where a sure fix flags another line', () => {
  expect(() => expectFixesMend('a = wrong', checkOffering('right\nb = worse', true))).toThrow(
    /adds carried-forward in line 2/,
  );
  expect(() => expectFixesMend('a = wrong', checkOffering('right\nb = worse', false))).not.toThrow();
});
