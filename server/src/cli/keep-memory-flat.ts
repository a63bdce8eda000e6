/**
 * Tells V8 to keep its heap small from here on. A bank is checked note by note and next to nothing of a note
 * lives on, but V8 takes the many short lives for a reason to grow, to twice the memory and no less time.
 *
 * The first two switches only weigh how often rubbish is collected. The third lets the compiler copy less of one
 * function into another: there are many small ones here, and a run over some thousand notes spends more on compiling
 * such copies than they save. Unknown switches are passed over by V8.
 */
export async function keepMemoryFlat(): Promise<void> {
  const { setFlagsFromString } = await import('node:v8');
  setFlagsFromString('--semi-space-growth-factor=1');
  setFlagsFromString('--heap-growing-percent=10');
  setFlagsFromString('--max-inlined-bytecode-size-cumulative=300');
}
