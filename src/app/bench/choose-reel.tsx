import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useDeferredValue, useMemo, useState } from 'react'
import { Button } from 'react-aria-components'
import { idLength, readId } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { Swatch } from '../drawing/swatch.tsx'
import { WordsField } from '../field/words-field.tsx'
import { MassFigure } from '../figure/mass-figure.tsx'
import { useChoices } from '../look/choices.tsx'
import { Failure } from '../look/said.tsx'
import { reelsOfPrints } from '../running/running-print.ts'
import { useRunning } from '../running/use-running.ts'
import { filterReels, wordsOf } from '../shelf/filter-reels.ts'
import { benchWords } from '../strings/bench-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import styles from './bench.module.css'
import { recentFirst } from './recent-reels.ts'

/** As many as a phone shows above the fold. */
const most = 6

/** Which reel stands on the scale: recent ones first, or found by words, or by its id. */
export function ChooseReel({ onChoose }: { readonly onChoose: (id: string) => void }): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const { data, error } = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const [typed, setTyped] = useState('')
  const [refused, setRefused] = useState<string | null>(null)
  const busy = reelsOfPrints(useRunning())
  const reels = useMemo(() => recentFirst(data?.reels ?? []), [data])
  const haystacks = useMemo(() => reels.map(wordsOf), [reels])
  const wanted = useDeferredValue(typed)
  const found = useMemo(() => filterReels(reels, haystacks, wanted), [reels, haystacks, wanted])
  const enter = (): void => {
    const id = readId(typed, idLength.row)
    if (id.ok) return onChoose(id.value)
    const [one, another] = filterReels(reels, haystacks, typed)
    if (typed.trim() !== '' && one !== undefined && another === undefined) {
      return onChoose(one.reel.id)
    }
    setRefused(one === undefined ? benchWords.noReel(typed) : benchWords.several)
  }
  if (error !== null)
    return (
      <p role="alert">
        <Failure of={error} />
      </p>
    )
  return (
    <>
      <form
        onSubmit={(event) => {
          event.preventDefault()
          enter()
        }}
      >
        <WordsField
          label={benchWords.whichReel}
          value={typed}
          onChange={(next) => {
            setTyped(next)
            setRefused(null)
          }}
          refused={refused}
        />
      </form>
      {data === undefined ? <p role="status">{benchWords.fetching}</p> : null}
      {data?.reels.length === 0 ? <p>{benchWords.emptyShelf}</p> : null}
      <ul className={styles['reels']}>
        {found.slice(0, most).map(({ reel, net_g }) => (
          <li key={reel.id}>
            <Button className={styles['reel'] ?? ''} onPress={() => onChoose(reel.id)}>
              <b className={styles['id']}>{reel.id}</b>
              <span className={styles['of']}>
                <Swatch colour={reel.srgb} /> {reelWords.colourAndMake(reel)}
              </span>
              <span className={styles['net']}>
                {net_g === null ? null : <MassFigure mass={net_g} unit={unit} />}
              </span>
              {busy.has(reel.id) ? (
                <span className={styles['runs']}>{benchWords.isRunning}</span>
              ) : null}
            </Button>
          </li>
        ))}
      </ul>
      {found.length > most ? (
        <p className={styles['soft']}>{benchWords.more(found.length - most)}</p>
      ) : null}
    </>
  )
}
