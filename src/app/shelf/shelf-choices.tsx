import { type ReactNode, useMemo } from 'react'
import type { ListedReelJson } from '../../contract/index.ts'
import { ChoiceField } from '../field/choice-field.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { shelfWords } from '../strings/shelf-words.ts'
import type { Narrowing } from './narrow-reels.ts'

const compare = new Intl.Collator('en-GB', { numeric: true }).compare

/** Every value that occurs, once. */
const told = (values: readonly (string | null)[]): readonly string[] =>
  [...new Set(values)].filter((value) => value !== null).toSorted(compare)

/** Id and name of every material that occurs, by its name. */
const materialsOf = (reels: readonly ListedReelJson[]): readonly (readonly [string, string])[] =>
  [
    ...new Map(
      reels.flatMap(({ reel: { material, material_name: name } }) =>
        material === null ? [] : [[material, name ?? material] as const],
      ),
    ),
  ].toSorted(([, a], [, b]) => compare(a, b))

/** Which of the shelf's materials, colours and places, and what clears the print at hand. */
export function ShelfChoices({
  reels,
  value,
  print,
  onChange,
}: {
  readonly reels: readonly ListedReelJson[]
  readonly value: Narrowing
  /** Name of the print at hand; null without one. */
  readonly print: string | null
  readonly onChange: (value: Narrowing) => void
}): ReactNode {
  const [materials, colours, places] = useMemo(
    () => [
      materialsOf(reels),
      told(reels.map(({ reel }) => reel.colour)),
      told(reels.map(({ reel }) => reel.place)),
    ],
    [reels],
  )
  return (
    <>
      <ChoiceField
        label={shelfWords.columns.material}
        words={[['', shelfWords.allMaterials], ...materials]}
        value={value.material ?? ''}
        onChange={(material) => onChange({ ...value, material: material === '' ? null : material })}
      />
      <ChoiceField
        label={shelfWords.columns.colour}
        words={[['', shelfWords.allColours], ...colours.map((name) => [name, name] as const)]}
        value={value.colour ?? ''}
        onChange={(colour) => onChange({ ...value, colour: colour === '' ? null : colour })}
      />
      {places.length === 0 ? null : (
        <ChoiceField
          label={shelfWords.columns.place}
          words={[['', shelfWords.allPlaces], ...places.map((name) => [name, name] as const)]}
          value={value.place ?? ''}
          onChange={(place) => onChange({ ...value, place: place === '' ? null : place })}
        />
      )}
      {print === null ? null : (
        <WordChoice
          label={shelfWords.clears(print)}
          words={shelfWords.likely}
          value={value.likely}
          onChange={(likely) => onChange({ ...value, likely })}
        />
      )}
    </>
  )
}
