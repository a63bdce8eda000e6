import fc from 'fast-check';

/** Words that mean something to a host, a terminal or a format, to be put where a note has its own words. */
export const HOSTILE_WORDS: readonly string[] = [
  '::error::smuggled',
  '::stop-commands::smuggled',
  '##[error]smuggled',
  '##vso[task.complete]smuggled',
  '##teamcity[message]smuggled',
  '\x1b[31m',
  '\x9b2J',
  '\u202e',
  '\ufffe',
  '\uffff',
  ']]>',
  '<!--',
  '"/><failure>',
  '&amp;',
  "'",
  '%0A',
  '%',
  ',',
  ':',
  '](command:smuggled)',
  '\ud800',
  '\udc00',
  '\0',
  '\r',
  '\n',
  '\u2028',
  '☂',
];

/** Texts made of such words and any signs, mixed. */
export const hostileText: fc.Arbitrary<string> = fc
  .array(fc.oneof(fc.constantFrom(...HOSTILE_WORDS), fc.string({ unit: 'binary', maxLength: 3 })), {
    maxLength: 6,
  })
  .map(parts => parts.join(''));
