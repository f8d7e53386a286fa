import { useEffect, useRef } from 'react'

/**
 * Keys that arrive while no field has the focus, as from a scale that types: figures go to the field,
 * and Enter ends them.
 */
export function useFarKeys(keys: {
  readonly isOn: boolean
  readonly onKey: (key: string) => void
  readonly onEnter: () => void
}): void {
  const now = useRef(keys)
  now.current = keys
  useEffect(() => {
    const hear = (event: KeyboardEvent): void => {
      const { isOn, onKey, onEnter } = now.current
      const { target, key, ctrlKey, metaKey, altKey } = event
      if (!isOn || ctrlKey || metaKey || altKey) return
      const isTaken = target instanceof HTMLElement && target.matches('input, select, textarea')
      if (isTaken && !(target instanceof HTMLInputElement && target.type === 'radio')) return
      if (/^[\d.,]$/.test(key)) {
        event.preventDefault()
        event.stopPropagation()
        onKey(key)
      } else if (key === 'Enter' && target === document.body) onEnter()
    }
    addEventListener('keydown', hear, { capture: true })
    return () => removeEventListener('keydown', hear, { capture: true })
  }, [])
}
