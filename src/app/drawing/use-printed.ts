import { useEffect, useState } from 'react'
import { flushSync } from 'react-dom'

/** Whether the page is being printed: what is drawn for paper must stand before the browser lays it out. */
export const usePrinted = (): boolean => {
  const [isPrinted, setPrinted] = useState(false)
  useEffect(() => {
    const begin = (): void => flushSync(() => setPrinted(true))
    const end = (): void => setPrinted(false)
    addEventListener('beforeprint', begin)
    addEventListener('afterprint', end)
    return () => {
      removeEventListener('beforeprint', begin)
      removeEventListener('afterprint', end)
    }
  }, [])
  return isPrinted
}
