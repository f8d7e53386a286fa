import { setTimeout as sleep } from 'node:timers/promises'

/**
 * Does something again while it fails because somebody else is at it; what else goes wrong is thrown,
 * and so is the last failure.
 *
 * @param isBusy - whether an error is one that passes
 * @param patience - ms
 */
export const patiently = async <T>(
  work: () => Promise<T>,
  isBusy: (error: unknown) => boolean,
  patience: number,
): Promise<T> => {
  const end = performance.now() + patience
  for (;;) {
    try {
      // oxlint-disable-next-line no-await-in-loop -- a try begins when the one before has failed
      return await work()
    } catch (error) {
      if (!isBusy(error) || performance.now() >= end) throw error
      // oxlint-disable-next-line no-await-in-loop -- uneven, so that two who wait do not stay in step
      await sleep(1 + Math.random() * 10)
    }
  }
}
