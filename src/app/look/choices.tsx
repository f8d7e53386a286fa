import { createContext, type ReactNode, use, useState } from 'react'
import type { MassUnit } from '../strings/show-figure.ts'
import { chooseGround, type Ground, keptGround } from './ground.ts'
import { keep, kept } from './kept.ts'

/** What a person chose of how this browser shows things. */
export interface Choices {
  readonly ground: Ground
  readonly unit: MassUnit
  readonly setGround: (ground: Ground) => void
  readonly setUnit: (unit: MassUnit) => void
}

const ChoicesContext = createContext<Choices | null>(null)

/** Holds the choices for the sheets in it. */
export function ChoicesOf({ children }: { readonly children: ReactNode }): ReactNode {
  const [ground, setGround] = useState(keptGround)
  const [unit, setUnit] = useState<MassUnit>(() => (kept('unit') === 'oz' ? 'oz' : 'g'))
  const choices: Choices = {
    ground,
    unit,
    setGround: (next) => {
      chooseGround(next)
      setGround(next)
    },
    setUnit: (next) => {
      keep('unit', next)
      setUnit(next)
    },
  }
  return <ChoicesContext value={choices}>{children}</ChoicesContext>
}

/** @throws Error outside `ChoicesOf` */
export function useChoices(): Choices {
  const choices = use(ChoicesContext)
  if (choices === null) throw new Error('There are no choices here.')
  return choices
}
