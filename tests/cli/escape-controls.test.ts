import fc from 'fast-check';
import { expect, it } from 'vitest';
import { escapeControls, escapeControlsAt } from '../../server/src/cli/escape-controls.ts';

it('writes out what could steer a terminal', () => {
  expect(escapeControls('\x1b[31mred')).toBe('<U+001B>[31mred');
  expect(escapeControls('\x9b2J')).toBe('<U+009B>2J');
  expect(escapeControls('a\u202eb\u2066c')).toBe('a<U+202E>b<U+2066>c');
  expect(escapeControls('a\r\nb\t\x7f\0')).toBe('a<U+000D><U+000A>b<U+0009><U+007F><U+0000>');
  expect(escapeControls('\u2028\ufeff\u200b')).toBe('<U+2028><U+FEFF><U+200B>');
  expect(escapeControls('\ud800x')).toBe('<U+D800>x');
});

it('writes out what a build host would take for a command', () => {
  // GitHub's workflow commands `::name::` at a line's start, its older form `##[name]` anywhere; Azure Pipelines' `##vso[`,
  // TeamCity's `##teamcity[` (from their documentations, from memory).
  expect(escapeControls('::error::x')).toBe('<U+003A>:error::x');
  expect(escapeControls(' \t::stop-commands::x')).toBe(' <U+0009><U+003A>:stop-commands::x');
  expect(escapeControls('a ##[set-env name=x]y')).toBe('a <U+0023>#[set-env name=x]y');
  expect(escapeControls('a ##vso[task.setvariable]')).toBe('a <U+0023>#vso[task.setvariable]');
  expect(escapeControls('###teamcity[x')).toBe('#<U+0023>#teamcity[x');
  expect(escapeControls('#\u200d#\u200c[error]')).toBe('<U+0023>\u200d#\u200c[error]');
  expect(escapeControls('## Heading [a] and std::vector')).toBe('## Heading [a] and std::vector');
});

it('sees the command that one sign of a text begins', () => {
  const text = '###[x] ##';
  expect([...text].map((sign, at) => escapeControlsAt(text, at, sign)).join('')).toBe('#<U+0023>#[x] ##');
});

it('leaves what a tutor writes as it is', () => {
  const text = '24° 31′ 20″, 3 × 0.02 mm ≈ 0,06; µ Ω √2 é e\u0301 漢 क्षि 👨‍👩‍👧';
  expect(escapeControls(text)).toBe(text);
});

it('lets no control, no surrogate half and no mark of direction through', () => {
  // Unicode's own classes: Cc (control), Cs (surrogate), Bidi_Control.
  const unsafe = /[\p{Cc}\p{Cs}\p{Bidi_Control}]/u;
  const unit = fc.oneof(
    fc.integer({ min: 0, max: 0xffff }).map(code => String.fromCharCode(code)),
    fc.integer({ min: 0, max: 0x9f }).map(code => String.fromCharCode(code)),
  );
  fc.assert(
    fc.property(fc.string({ unit }), text => {
      expect(unsafe.test(escapeControls(text))).toBe(false);
    }),
    { numRuns: 1000 },
  );
});
