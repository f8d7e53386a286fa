import { useState } from 'react'
import type { CheckJson, MaterialToTakeJson } from '../../contract/index.ts'
import { keep, kept } from '../look/kept.ts'
import { checkWords } from '../strings/check-words.ts'

/** Said where a print may be made of whatever there is. */
export const anyMaterial = '*'

/** Of each print, the newest last, what a person said: id of a material, or `anyMaterial`. */
type Said = readonly (readonly [print: string, material: string])[]

const name = 'materials'

/** Of so many prints it is kept. */
const most = 200

const isSaid = (one: unknown): one is Said[number] =>
  Array.isArray(one) && one.length === 2 && one.every((word) => typeof word === 'string')

const said = (): Said => {
  try {
    const found: unknown = JSON.parse(kept(name) ?? '[]')
    return Array.isArray(found) ? found.filter(isSaid) : []
  } catch {
    return []
  }
}

/** What this print is to be made of, as a person said in this browser; null where nobody did. */
export const materialOf = (print: string): string | null =>
  said().find(([one]) => one === print)?.[1] ?? null

/** @param material - null: as if nobody had said */
export const sayMaterial = (print: string, material: string | null): void => {
  const others = said().filter(([one]) => one !== print)
  const now: Said = material === null ? others : [...others, [print, material]]
  keep(name, JSON.stringify(now.slice(-most)))
}

/** What the print at hand is to be made of. */
export interface MaterialAtHand {
  /** Id of a material, or `anyMaterial`; null where nobody said. */
  readonly material: string | null
  /** It stands so on the slate: nobody said otherwise here. */
  readonly isWished: boolean
  readonly say: (material: string) => void
  /** As if it had not been said, here or else on the slate. */
  readonly forget: () => void
}

/**
 * @param print - as `printId` has it; null where there is none yet
 * @param wished - what the slate has it made of
 */
export function useMaterial(print: string | null, wished: string | null): MaterialAtHand {
  // Whatever was said is read from what is kept.
  const [, heard] = useState({})
  const [unheeded, setUnheeded] = useState<string | null>(null)
  const told = print === null ? null : materialOf(print)
  const isWished = told === null && wished !== null && print !== unheeded
  return {
    material: isWished ? wished : told,
    isWished,
    say: (material) => {
      if (print === null) return
      sayMaterial(print, material)
      heard({})
    },
    forget: () => {
      if (print === null) return
      // What the slate wishes may be there still.
      if (told === null) setUnheeded(print)
      else sayMaterial(print, null)
      heard({})
    },
  }
}

/** Whether there is anything to choose: reels of one material alone are taken unasked. */
export const isMaterialOpen = (materials: readonly MaterialToTakeJson[]): boolean =>
  materials.length > 1

/** Of which materials an answer is, by their names, each once. */
export const materialsOf = (
  { tools }: Pick<CheckJson, 'tools'>,
  materials: readonly MaterialToTakeJson[],
): readonly string[] => [
  ...new Set(
    tools.map(
      ({ reel }) =>
        materials.find(({ id }) => id === reel?.material)?.name ?? checkWords.unknownMaterial,
    ),
  ),
]
