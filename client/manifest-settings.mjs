// Puts the settings of the extension into its manifest, and their words into the file that can be translated.

/** What only the editor knows, beside what it shares with the configuration file. */
const OF_THE_EDITOR = {
  'leastwise.workspace.check': {
    type: 'boolean',
    scope: 'resource',
    default: true,
    markdownDescription:
      'Check the notes of the workspace that are not open too, and list what is found among the problems. Where this is off, the command *Check the Workspace* does it for as long as the window is open.',
  },
  'leastwise.inlayHints.answers': {
    type: 'boolean',
    scope: 'resource',
    default: true,
    markdownDescription: 'Show the value beside a question: `observed reading = ?`.',
  },
  'leastwise.inlayHints.leastCount': {
    type: 'boolean',
    scope: 'resource',
    default: true,
    markdownDescription: 'Show the least count beside the lines of the scales.',
  },
  'leastwise.inlayHints.zeroError': {
    type: 'boolean',
    scope: 'resource',
    default: true,
    markdownDescription: 'Show the zero error beside the line of the closed position.',
  },
  'leastwise.format.enable': {
    type: 'boolean',
    scope: 'window',
    default: false,
    markdownDescription:
      'Tidy the measurement blocks of a note when it is formatted; the rest of the note is left alone. leastwise then counts as a formatter of Markdown.',
  },
};

/** Names in their settings page. */
const TITLE = 'leastwise';

/**
 * The manifest and its words with all settings in them; words of settings that are gone are gone too.
 *
 * @param {object} manifest the package.json
 * @param {Record<string, string>} words the package.nls.json
 * @param {Record<string, object>} shared what the configuration file has too, as the schema says it
 */
export function withSettings(manifest, words, shared) {
  const keys = new Map();
  const keyed = (text, key) => {
    if (!keys.has(text)) keys.set(text, key);
    return `%${keys.get(text)}%`;
  };
  const properties = {};
  for (const [name, setting] of Object.entries({ ...shared, ...OF_THE_EDITOR }))
    properties[name] = withKeys(setting, name.replace('leastwise.', 'settings.'), keyed);
  return {
    manifest: {
      ...manifest,
      contributes: { ...manifest.contributes, configuration: { title: TITLE, properties } },
    },
    words: {
      ...Object.fromEntries(Object.entries(words).filter(([key]) => !key.startsWith('settings.'))),
      ...Object.fromEntries([...keys].map(([text, key]) => [key, text])),
    },
  };
}

/** A setting, and those within it, with a key in the place of each text. */
function withKeys({ description, ...setting }, key, keyed) {
  const told = { ...setting };
  if (setting.markdownDescription !== undefined)
    told.markdownDescription = keyed(setting.markdownDescription, key);
  else if (description !== undefined) told.description = keyed(description, key);
  if (setting.enumDescriptions !== undefined)
    told.enumDescriptions = setting.enumDescriptions.map((text, at) =>
      keyed(text, `${key}.${setting.enum[at] ?? 'usual'}`.replaceAll(' ', '-')),
    );
  if (setting.properties !== undefined)
    told.properties = Object.fromEntries(
      Object.entries(setting.properties).map(([name, each]) => [
        name,
        withKeys(each, `${key}.${name}`, keyed),
      ]),
    );
  return told;
}
