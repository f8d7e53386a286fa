/**
 * Runs long work that Ctrl-C cancels: the work is told by the signal and undoes what it began.
 */
export const cancelling = async <T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> => {
  const controller = new AbortController()
  const cancel = (): void => controller.abort()
  process.on('SIGINT', cancel)
  try {
    return await work(controller.signal)
  } finally {
    process.off('SIGINT', cancel)
  }
}
