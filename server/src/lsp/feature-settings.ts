import { DEFAULT_SETTINGS, type Settings } from '../checks/settings.ts';
import type { Server } from './feature.ts';

/** How a note is looked at, and what an editor is told beside its findings. */
export interface FeatureSettings {
  readonly settings: Settings;
  readonly inlayHints: HintSettings;
}

/** Which values are shown between the words of a note; each has its own switch. */
export interface HintSettings {
  /** The value beside `= ?`. */
  readonly answers: boolean;
  /** The least count beside the last line of the scales. */
  readonly leastCount: boolean;
  /** The zero error beside `closed:`. */
  readonly zeroError: boolean;
}

/** What holds where nobody has chosen. */
export const USUAL_SETTINGS: FeatureSettings = {
  settings: DEFAULT_SETTINGS,
  inlayHints: { answers: true, leastCount: true, zeroError: true },
};

/** What holds for a note; a hint that is not switched off is shown. */
export function featureSettings({ settings }: Pick<Server, 'settings'>, uri: string): FeatureSettings {
  const { inlayHints = {} } = settings.editor(uri) as { readonly inlayHints?: Partial<HintSettings> | null };
  return {
    settings: settings.known(uri),
    inlayHints: {
      answers: inlayHints?.answers !== false,
      leastCount: inlayHints?.leastCount !== false,
      zeroError: inlayHints?.zeroError !== false,
    },
  };
}
