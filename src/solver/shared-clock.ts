/**
 * ms, the same in all threads of a process: `performance.now` begins at 0 in each.
 */
export const sharedClock = (): number => performance.timeOrigin + performance.now()
