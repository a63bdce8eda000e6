import { describe, expect, it } from 'vitest';
import { checkThatFinds } from './fake-check.ts';
import { expectMarkedNote } from './marked-note.ts';

const check = checkThatFinds({
  '2.494 cm': { slip: 'digits-swapped', message: 'the reading is 2.484 cm' },
  '2.5 cm': { rule: 'stated-precision', severity: 'warning', message: 'too few places' },
  'LSR: 2': { rule: 'missing-unit', message: 'a length needs a unit' },
});

function inBlock(...lines: readonly string[]): string {
  return ['# Axles', '', '```measurement', ...lines, '```', ''].join('\n');
}

const accepts = (text: string) => expect(() => expectMarkedNote(text, check)).not.toThrow();
const refuses = (text: string, why: RegExp) => expect(() => expectMarkedNote(text, check)).toThrow(why);

describe('a marked note', () => {
  it('passes where every finding is marked below its place', () => {
    accepts(inBlock('observed reading = 2.494 cm', '#                  ^^^^^^^^ error wrong-value'));
  });

  it('passes with a comment between others, in a list and in a quote', () => {
    accepts(inBlock('# just a comment', 'R = 2.494 cm', '#   ^^^^^^^^ error wrong-value', '# another'));
    accepts(
      '- ```measurement\n  R = 2.494 cm\n  #   ^^^^^^^^ error wrong-value\n  ```\n'.replace('- ', '\n  '),
    );
    accepts('> x\n'.concat(inBlock('R = 2.494 cm', '#   ^^^^^^^^ error wrong-value')));
  });

  it('fails for a finding that nobody marked, and shows the marker that would do', () => {
    refuses(
      inBlock('R = 2.494 cm'),
      /not marked[\s\S]*\n# {3}\^{8} error wrong-value \[digits-swapped\]: the reading/,
    );
  });

  it('fails for a marker without a finding', () => {
    refuses(inBlock('R = 2.484 cm', '#   ^^^^^^^^ error wrong-value'), /marked in line 5, but not found/);
  });

  it('fails where the place is another one', () => {
    refuses(inBlock('R = 2.494 cm', '#    ^^^^^^^ error wrong-value'), /not found/);
    refuses(inBlock('R = 2.494 cm', '#   ^^^^^^^ error wrong-value'), /not found/);
    refuses(inBlock('R = 2.494 cm', '# ^ error wrong-value'), /not found/);
  });

  it('takes one caret for any place that it lies in', () => {
    accepts(inBlock('R = 2.494 cm', '#      ^ error wrong-value'));
  });

  it('lets carets behind the # leave out what the # covers, and no more', () => {
    accepts(inBlock('LSR: 2', '#^^^^^ error missing-unit'));
    accepts(inBlock('LSR: 2', '#<^^^^ error missing-unit'));
    accepts(inBlock('LSR: 2', '#^ error missing-unit'));
    refuses(inBlock('LSR: 2', '# ^^^^ error missing-unit'), /not found/);
    refuses(inBlock('LSR: 2', '#^^^^ error missing-unit'), /not found/);
  });

  it('fails where severity, rule, slip or text differ', () => {
    const marked = (what: string) => inBlock('R = 2.494 cm', `#   ^^^^^^^^ ${what}`);
    accepts(marked('error wrong-value [digits-swapped]: 2.484'));
    accepts(marked('error wrong-value: …'));
    refuses(marked('warning wrong-value'), /not found/);
    refuses(marked('error carried-forward'), /not found/);
    refuses(marked('error wrong-value [sign-slip]'), /not found/);
    refuses(marked('error wrong-value: 2.478'), /not found/);
  });

  it('fails for a marker that names no rule or cannot be read', () => {
    refuses(inBlock('R = 2.494 cm', '#   ^^^^^^^^ error wrong-valeu'), /names no rule: wrong-valeu/);
    refuses(inBlock('R = 2.494 cm', '#   ^^^^^^^^ wrong-value'), /line 5 cannot be read/);
  });

  it('takes several markers for a line', () => {
    accepts(
      inBlock(
        'R = 2.494 cm = 2.5 cm',
        '#   ^^^^^^^^ error wrong-value',
        '#              ^^^^^^ warning stated-precision',
      ),
    );
  });

  it('needs one marker for each of two findings', () => {
    refuses(inBlock('R = 2.494 cm = 2.494 cm', '#   ^^^^^^^^ error wrong-value'), /line 4, but not marked/);
  });

  it('takes markers at the end of a row', () => {
    accepts(inBlock('| 2.494 cm | # error wrong-value [digits-swapped]: 2.484'));
    accepts(inBlock('| 2.494 cm | 2.5 cm | # error wrong-value: 2.484 cm; warning stated-precision'));
    refuses(inBlock('| 2.494 cm | 2.5 cm | # error wrong-value'), /not marked/);
    refuses(inBlock('| 2.484 cm | # error wrong-value'), /not found/);
  });

  it('takes markers for the prose', () => {
    accepts('It measures 2.494 cm.\n<!--        ^^^^^^^^ error wrong-value -->\n');
    refuses('It measures 2.494 cm.\n<!--       ^^^^^^^^ error wrong-value -->\n', /not found/);
    refuses('It measures 2.494 cm.\n', /not marked/);
  });

  it('lets a waived finding stand without a marker, and takes one', () => {
    const waiving = checkThatFinds({ '2.5 cm': { rule: 'stated-precision', waived: 'as printed' } });
    expect(() => expectMarkedNote(inBlock('R = 2.5 cm'), waiving)).not.toThrow();
    expect(() =>
      expectMarkedNote(inBlock('R = 2.5 cm', '#   ^^^^^^ waived stated-precision'), waiving),
    ).not.toThrow();
    expect(() =>
      expectMarkedNote(inBlock('R = 2.5 cm', '#   ^^^^^^ error stated-precision'), waiving),
    ).toThrow(/not found/);
  });

  it('reads lines whatever ends them', () => {
    accepts(inBlock('R = 2.494 cm', '#   ^^^^^^^^ error wrong-value').replaceAll('\n', '\r\n'));
  });
});
