/** One of the shares that a bank is dealt out in, `index` from 1 to `of`; each is checked by a machine of its own. */
export interface Shard {
  readonly index: number;
  readonly of: number;
}

/** What was typed, or the sentence that says what is wrong with it. */
export type TypedShard =
  | { readonly ok: true; readonly shard: Shard }
  | { readonly ok: false; readonly trouble: string };

/** More machines than anybody has; a number beyond it is a slip. */
const MOST = 1000;

/** Reads `2/3`, the second of three shares. */
export function readShard(typed: string): TypedShard {
  const [, first = '', second = ''] = /^([0-9]{1,6})\/([0-9]{1,6})$/.exec(typed) ?? [];
  const [index, of] = [Number(first), Number(second)];
  if (first === '')
    return wrong(
      `--shard ${typed} names no share: write which and of how many, as in 2/3, the second of three`,
    );
  if (of < 1 || of > MOST)
    return wrong(`--shard ${typed} names no share: a bank is dealt out in 1 to ${MOST} shares`);
  if (index < 1 || index > of)
    return wrong(
      `--shard ${typed} names no share: ${of === 1 ? 'the only one is 1/1' : `those of ${of} are 1/${of} to ${of}/${of}`}`,
    );
  return { ok: true, shard: { index, of } };
}

function wrong(trouble: string): TypedShard {
  return { ok: false, trouble };
}
