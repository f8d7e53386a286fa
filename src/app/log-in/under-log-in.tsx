import { useIsMutating } from '@tanstack/react-query'
import { type ReactNode, useEffect, useRef, useState } from 'react'
import { logOutKey } from '../touch/query-keys.ts'
import { LogInSheet } from './log-in-sheet.tsx'

/**
 * Sheets, and over them the one that asks to log in. A session may end under the hands of somebody who
 * types: the sheets are hidden then, and as they were once somebody has logged in. Where somebody logs out
 * on purpose nothing of them is left.
 */
export function UnderLogIn({
  isOut,
  children,
}: {
  readonly isOut: boolean
  readonly children: ReactNode
}): ReactNode {
  const [isBegun, setBegun] = useState(!isOut)
  const isLeaving = useIsMutating({ mutationKey: logOutKey }) > 0
  if (!isOut && !isBegun) setBegun(true)
  if (isOut && isLeaving && isBegun) setBegun(false)
  const at = useRef<Element | null>(null)
  useEffect(() => {
    if (!isOut) return undefined
    return () => {
      const there = at.current?.isConnected === true ? at.current : document.getElementById('drawn')
      if (there instanceof HTMLElement) there.focus()
    }
  }, [isOut])
  return (
    <>
      {isBegun ? (
        <div
          hidden={isOut}
          inert={isOut}
          onFocus={({ target }) => {
            at.current = target
          }}
        >
          {children}
        </div>
      ) : null}
      {isOut ? <LogInSheet /> : null}
    </>
  )
}
