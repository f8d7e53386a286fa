import type { ReactNode } from 'react'
import type { MaterialToTakeJson } from '../../contract/index.ts'
import { WordChoice } from '../field/word-choice.tsx'
import { checkWords } from '../strings/check-words.ts'
import styles from './check.module.css'
import { anyMaterial, isMaterialOpen } from './use-material.ts'

/** What the print is to be made of, in a line; nothing where all reels are of one material. */
export function MaterialChoice({
  materials,
  material,
  isWished,
  isAsked,
  onChoose,
}: {
  readonly materials: readonly MaterialToTakeJson[]
  /** As `MaterialAtHand` has it. */
  readonly material: string | null
  readonly isWished: boolean
  /** True while no reel is right before it is answered. */
  readonly isAsked: boolean
  readonly onChoose: (material: string) => void
}): ReactNode {
  if (!isMaterialOpen(materials)) return null
  const words = Object.fromEntries([
    ...materials.flatMap(({ id, name, reels }) =>
      id === null ? [] : [[id, checkWords.ofMaterial(name ?? id, reels)]],
    ),
    [anyMaterial, checkWords.anyMaterial],
  ])
  return (
    <div className={`${styles['material']} ${isAsked ? styles['asks'] : ''}`}>
      <WordChoice<string>
        label={labelOf(material, isWished, isAsked)}
        words={words}
        value={material}
        onChange={onChoose}
      />
    </div>
  )
}

const labelOf = (material: string | null, isWished: boolean, isAsked: boolean): string => {
  if (isAsked) return checkWords.whichMaterial
  if (material === null) return checkWords.listOf
  return isWished ? checkWords.materialOnSlate : checkWords.material
}
