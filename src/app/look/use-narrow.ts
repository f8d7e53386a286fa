import { useSyncExternalStore } from 'react'

const query = (): MediaQueryList => matchMedia('(max-width: 719px)')

const follow = (changed: () => void): (() => void) => {
  const list = query()
  list.addEventListener('change', changed)
  return () => list.removeEventListener('change', changed)
}

/** Whether the sheet is as narrow as a phone: the width at which frame.module.css changes, too. */
export const useNarrow = (): boolean => useSyncExternalStore(follow, () => query().matches)
