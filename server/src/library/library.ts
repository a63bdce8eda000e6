import { checkNote as checkedNote } from '../checks/check.ts';
import { type CheckOptions, type CheckResult, checkText } from '../checks/check-text.ts';
import type { CheckedNote } from '../checks/finding.ts';
import { DEFAULT_SETTINGS, type Settings } from '../checks/settings.ts';
import { readSettings } from '../config/read-settings.ts';
import type { FigureStyle } from '../figures/block-figure.ts';
import { drawNote as drawnNote, type NoteFigure } from '../figures/draw-note.ts';

/**
 * Checks a note: every stated least count, reading, correction and result against what the records make it.
 *
 * `text` is the whole Markdown note. Gives plain data, as `leastwise check --format json` tells it. Never throws on
 * anything that a note may hold; throws a `TypeError` where there is no text, or an option that does not exist.
 */
export function check(text: string, options: CheckOptions = {}): CheckResult {
  needText(text);
  const { waived, ...settings } = options;
  if (waived !== undefined && typeof waived !== 'boolean')
    throw new TypeError(`leastwise: waived has to be true or false, not ${JSON.stringify(waived)}`);
  needSettings(settings);
  return checkText(text, options);
}

/**
 * Checks a note: every stated least count, reading, correction and result against what the records make it.
 *
 * `text` is the whole Markdown note; spans are offsets into it. `settings` say how to look at it, by default as usual.
 * Never throws on anything that a note may hold; throws a `TypeError` where there is no text, or a setting that does
 * not exist.
 */
export function checkNote(text: string, settings: Settings = DEFAULT_SETTINGS): CheckedNote {
  needText(text);
  needSettings(settings);
  return checkedNote(text, settings);
}

/**
 * Draws every block of a note whose scales are determined, in the order of the note; of a table its first row.
 *
 * `text` is the whole Markdown note. Where the settings are those of a student, only the style of a question is drawn.
 * Throws a `TypeError` where there is no text, or a style or a setting that does not exist.
 */
export function drawNote(text: string, style: FigureStyle, settings?: Settings): readonly NoteFigure[] {
  needText(text);
  if (!STYLES.includes(style))
    throw new TypeError(`leastwise: a style is ${STYLES.join(' or ')}, not ${JSON.stringify(style)}`);
  needSettings(settings ?? {});
  return drawnNote(text, style, settings);
}

const STYLES: readonly FigureStyle[] = ['question', 'worked'];

function needText(text: unknown): void {
  if (typeof text !== 'string')
    throw new TypeError(`leastwise: a note is a piece of text, not ${typeof text}`);
}

/** A setting that does not exist would turn nothing on, or a rule off, and nobody would know. */
function needSettings(settings: Partial<Settings>): void {
  const { troubles } = readSettings(said(settings), true);
  const [first] = troubles;
  if (first !== undefined) throw new TypeError(`leastwise: ${first.message}`);
}

/** What a program leaves undefined is as usual, also rule by rule. */
function said(settings: unknown): unknown {
  if (typeof settings !== 'object' || settings === null || Array.isArray(settings)) return settings;
  const named = Object.entries(settings).filter(([, value]) => value !== undefined);
  return Object.fromEntries(named.map(([name, value]) => [name, name === 'rules' ? said(value) : value]));
}
