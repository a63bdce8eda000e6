/** Whether somebody has asked the run to end before its time. */
export interface Interruption {
  /** From here on the first such wish is noted and does no more; a second one ends the process at once. */
  readonly heed: () => void;
  readonly isAsked: () => boolean;
  /** Leaves such wishes to the system again. */
  readonly forget: () => void;
}

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Ctrl-C, the wish of the system to end, or a terminal that is closed: so that a run can close its reports and say how far it came. */
export function interruption(): Interruption {
  let asked = false;
  let heeds = false;
  const forget = () => {
    // Without a listener the system's own way is back, which needs nobody to listen.
    for (const signal of SIGNALS) process.off(signal, note);
  };
  const note = () => {
    asked = true;
    forget();
  };
  return {
    heed: () => {
      if (heeds) return;
      heeds = true;
      for (const signal of SIGNALS) process.on(signal, note);
    },
    isAsked: () => asked,
    forget,
  };
}
