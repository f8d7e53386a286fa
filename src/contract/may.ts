/**
 * What one may do: `look` at everything, `record` what happens to reels as well, or `set_up`: everything,
 * tokens, import and restore among it.
 */
export type MayJson = 'look' | 'record' | 'set_up'

/** Each may what those before it may. */
export const mays: readonly MayJson[] = ['look', 'record', 'set_up']
