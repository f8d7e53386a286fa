const name = 'reelreckon-reading'

/** Until a file is read and hashed, or given up, what can wait is held back, on other pages of the app as well. */
export function holdBackUntil(read: Promise<unknown>): void {
  // There are no locks elsewhere, and nothing that waits for them.
  if (!isSecureContext) return
  const ended = read.then(
    () => undefined,
    () => undefined,
  )
  void navigator.locks.request(name, { mode: 'shared' }, () => ended)
}

/** Does what can wait, as soon as no file is being read; in a secure context. */
export const whenNothingIsRead = <T>(act: () => Promise<T>): Promise<T> =>
  navigator.locks.request(name, act)
