import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useDeferredValue, useMemo, useState } from 'react'
import { Input, Label, TextField } from 'react-aria-components'
import { useApi } from '../api/use-api.ts'
import { TakePrint } from '../check/take-print.tsx'
import type { ReadingAtHand } from '../check/use-reading.ts'
import fieldStyles from '../field/field.module.css'
import { Press } from '../field/press.tsx'
import { TickField } from '../field/tick-field.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { FirstSteps } from '../first/first-steps.tsx'
import type { FirstRunAtHand } from '../first/use-first-run.ts'
import { SheetFrame } from '../frame/sheet-frame.tsx'
import { useChoices } from '../look/choices.tsx'
import { Failure } from '../look/said.tsx'
import { frameWords } from '../strings/frame-words.ts'
import { shelfWords } from '../strings/shelf-words.ts'
import { filterReels, wordsOf } from './filter-reels.ts'
import { narrowReels, wide } from './narrow-reels.ts'
import { ReelDiscs } from './reel-discs.tsx'
import { ReelList } from './reel-list.tsx'
import styles from './shelf.module.css'
import { ShelfChoices } from './shelf-choices.tsx'
import { shelvesBehind } from './sort-reels.ts'
import { useClearing } from './use-clearing.ts'

/** Drawn at once: more would make each key wait. */
const page = 24

/** All reels, as discs on shelves or as a list. */
export function ShelfSheet({
  at,
  first,
}: {
  readonly at: ReadingAtHand
  readonly first: FirstRunAtHand
}): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const { data, error } = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const inUse = data?.reels ?? null
  const [isWithGone, setWithGone] = useState(false)
  // An empty shelf asks at once: the only reel of a bench may be gone by mistake.
  const all = useQuery({
    queryKey: ['shelf', 'all'],
    queryFn: () => api.shelf(true),
    enabled: isWithGone || inUse?.length === 0,
  })
  const [typed, setTyped] = useState('')
  const [view, setView] = useState<'discs' | 'list'>('discs')
  const [most, setMost] = useState(page)
  const reels = (isWithGone ? all.data?.reels : undefined) ?? inUse
  const haystacks = useMemo(() => (reels ?? []).map(wordsOf), [reels])
  // The field follows the keys; the drawings follow when there is time.
  const wanted = useDeferredValue(typed)
  const print = useClearing(at)
  const [narrowing, setNarrowing] = useState(wide)
  const clearing = print?.reels ?? null
  const found = useMemo(
    () => narrowReels(filterReels(reels ?? [], haystacks, wanted), narrowing, clearing),
    [reels, haystacks, wanted, narrowing, clearing],
  )
  const View = view === 'discs' ? ReelDiscs : ReelList
  const hasOnlyGone = inUse?.length === 0 && (all.data?.reels.length ?? 0) > 0
  const isFinding = reels !== null && reels.length > 0 && (!first.isOn || isWithGone)
  const lines = inUse === null ? [] : [[shelfWords.reels, String(inUse.length)] as const]
  return (
    <SheetFrame title={frameWords.shelf} lines={lines}>
      <h1 className="spoken">{frameWords.shelf}</h1>
      {error === null ? null : (
        <div role="alert">
          <h2 className={styles['headline']}>{shelfWords.noShelf}</h2>
          <p>
            <Failure of={error} />
          </p>
        </div>
      )}
      {reels === null && error === null ? <p role="status">{shelfWords.fetching}</p> : null}
      {first.isOn ? (
        <FirstSteps at={at} first={first}>
          <TakePrint at={at} small />
        </FirstSteps>
      ) : null}
      {isFinding || hasOnlyGone ? (
        <div className={styles['find']}>
          {isFinding ? (
            <>
              <TextField
                value={typed}
                onChange={(next) => {
                  setTyped(next)
                  setMost(page)
                }}
                className={fieldStyles['field'] ?? ''}
              >
                <Label>{shelfWords.find}</Label>
                <Input
                  placeholder={shelfWords.example}
                  autoComplete="off"
                  className={fieldStyles['input'] ?? ''}
                />
              </TextField>
              <ShelfChoices
                reels={reels}
                value={narrowing}
                print={print?.name ?? null}
                onChange={(next) => {
                  setNarrowing(next)
                  setMost(page)
                }}
              />
              <WordChoice
                label={shelfWords.shownAs}
                words={shelfWords.views}
                value={view}
                onChange={setView}
              />
            </>
          ) : null}
          <TickField
            label={shelfWords.withGone}
            isSo={isWithGone}
            onChange={(next) => {
              setWithGone(next)
              setMost(page)
            }}
          />
          {isFinding ? (
            <p role="status" className={styles['count']}>
              {shelfWords.count(found.length, reels.length)}
            </p>
          ) : null}
        </div>
      ) : null}
      {!isWithGone || all.error === null ? null : (
        <p role="alert">
          <Failure of={all.error} />
        </p>
      )}
      {isFinding ? (
        <>
          <View reels={found} most={most} unit={unit} clearing={clearing} />
          {found.length > most ? (
            <div className={styles['more']}>
              <p>
                {shelfWords.behind(
                  found.length - most,
                  view === 'discs' ? shelvesBehind(found, most) : null,
                )}
              </p>
              <Press onPress={() => setMost(most + page)}>
                {shelfWords.more(Math.min(page, found.length - most))}
              </Press>
            </div>
          ) : null}
        </>
      ) : null}
    </SheetFrame>
  )
}
