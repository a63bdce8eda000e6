/** Options that several commands share, as Commander takes them: the words that are typed, and what they do. */
export const STDIN_FILENAME = ['--stdin-filename <name>', 'what to call the note on standard input'] as const;
export const CONFIG = [
  '--config <file>',
  'the configuration; without it the nearest leastwise.config.json above each note',
] as const;
export const NO_CONFIG = ['--no-config', 'look for no configuration'] as const;
