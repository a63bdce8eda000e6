/**
 * Tells V8 to keep its heap small from here on. A bank is checked note by note and next to nothing of a note
 * lives on, but V8 takes the many short lives for a reason to grow, to twice the memory and no less time.
 *
 * The first two switches only weigh how often rubbish is collected. The third lets the compiler copy less of one
 * function into another: there are many small ones here, and a run over some thousand notes spends more on compiling
 * such copies than they save. The last is for a run that looks up for signals: V8 would take each such pause for one
 * in which it may begin to collect at leisure, and fill a third more memory meanwhile; so it is to be said before the
 * first of them. Unknown switches are passed over by V8.
 */
export async function keepMemoryFlat(): Promise<void> {
  const { setFlagsFromString } = await import('node:v8');
  setFlagsFromString('--semi-space-growth-factor=1');
  setFlagsFromString('--heap-growing-percent=10');
  setFlagsFromString('--max-inlined-bytecode-size-cumulative=300');
  setFlagsFromString('--no-incremental-marking-task');
}
