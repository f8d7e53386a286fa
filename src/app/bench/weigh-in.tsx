import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useEffect, useRef, useState } from 'react'
import { Input, Label, TextField } from 'react-aria-components'
import type { MeasuredJson, WeighRequest } from '../../contract/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { useApi } from '../api/use-api.ts'
import { Swatch } from '../drawing/swatch.tsx'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { useChoices } from '../look/choices.tsx'
import { Failure } from '../look/said.tsx'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { RunningList } from '../running/running-list.tsx'
import { benchWords } from '../strings/bench-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import { weighingWords } from '../strings/weighing-words.ts'
import { useTouch } from '../touch/touch.tsx'
import { BesideField, withBeside } from '../weighing/beside-field.tsx'
import { Surprise } from '../weighing/surprise.tsx'
import { toldWeighing } from '../weighing/told-weighing.ts'
import { WeighScale } from '../weighing/weigh-scale.tsx'
import styles from './bench.module.css'
import { ChangedReels } from './changed-reels.tsx'
import { Keypad, pressKey } from './keypad.tsx'
import { keepRecent } from './recent-reels.ts'
import { ScaleSelect } from './scale-select.tsx'
import { useFarKeys } from './use-far-keys.ts'
import { useScaleChoice } from './use-scale-choice.ts'
import { useScaleLine } from './use-scale-line.ts'

/** A pause as long as this ends a figure, ms: each one asked about is a reckoning. */
const pause = 200

/** One reel on the scale: what is expected, the figure, and whether they agree. */
export function WeighIn({
  reel,
  onAnother,
}: {
  readonly reel: string
  readonly onAnother: () => void
}): ReactNode {
  const api = useApi()
  const choices = useChoices()
  const choice = useScaleChoice()
  const { isKnown, scale, unit, setUnit } = choice
  const [typed, setTyped] = useState('')
  const [beside, setBeside] = useState<MeasuredJson | null>(null)
  const [refused, setRefused] = useState<string | null>(null)
  const [id] = useState(newFactId)
  const field = useRef<HTMLInputElement>(null)
  const form = useRef<HTMLFormElement>(null)
  const after = useRef<HTMLHeadingElement>(null)

  const shelf = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const head = shelf.data?.reels.find((one) => one.reel.id === reel)?.reel ?? null
  const told = typed.trim() === '' ? null : toldWeighing(typed, unit, scale)
  const weighing = told?.ok === true ? withBeside(told.value, beside) : null
  const posting = usePosting(
    (one: WeighRequest) => {
      keepRecent(one.reel ?? reel)
      return api.weigh(one)
    },
    { of: weighing },
  )
  const { answer, waits } = posting
  const asked = usePaused(JSON.stringify(weighing), pause)
  // What is expected does not hang on the reading; a test of any tells it.
  const expected = useQuery({
    queryKey: ['weigh-test', reel, scale, beside],
    queryFn: () =>
      api.weigh({
        reel,
        weighing: withBeside({ reading_g: 0, ...(scale !== null && { scale }) }, beside),
        test: true,
      }),
    enabled: isKnown,
    staleTime: 0,
  })
  const tested = useQuery({
    queryKey: ['weigh-test', reel, asked],
    queryFn: () => api.weigh({ reel, weighing: JSON.parse(asked), test: true }),
    enabled: asked !== 'null' && answer === null,
  })
  const isTested = weighing !== null && asked === JSON.stringify(weighing)
  const test = isTested ? (tested.data?.surprise ?? null) : null
  // A coarse figure agrees over a wider band than the scale could tell.
  const band = (test ?? expected.data?.surprise)?.expected_g
  const isAwaited = weighing !== null && !(isTested && tested.isError)

  const keep = (): void => {
    if (form.current !== null && goToUnread(form.current)) return undefined
    if (weighing !== null) return posting.post({ id, reel, weighing })
    setRefused(told?.ok === false ? told.refusal.message : benchWords.noFigure)
    return field.current?.focus()
  }
  const type = (next: string): void => {
    setTyped(next)
    setRefused(null)
  }
  const isOpen = answer === null && waits === null
  const { isOut } = useTouch()
  useFarKeys({
    // What is typed then is a pass-phrase.
    isOn: isOpen && !isOut,
    onKey: (key) => {
      field.current?.focus()
      setTyped((now) => now + key)
    },
    onEnter: keep,
  })
  const serial = useScaleLine((line) => {
    if (isOpen && line.kind === 'weight' && line.stable) type(line.text)
  })
  useEffect(() => {
    if (isOpen) field.current?.focus()
    else after.current?.focus()
  }, [isOpen])

  return (
    <section className={styles['weigh']} aria-label={benchWords.weighing(reel)}>
      <header className={styles['head']}>
        <h2 className={styles['reelName']}>
          <b>{reel}</b>{' '}
          {head === null ? null : (
            <span>
              <Swatch colour={head.srgb} /> {reelWords.colourAndMake(head)}
            </span>
          )}
        </h2>
        <Press onPress={onAnother}>{benchWords.another}</Press>
      </header>
      <RunningList reel={reel}>
        <p className={styles['runs']}>{benchWords.runs(reel)}</p>
      </RunningList>
      {answer?.recorded === true ? (
        <div role="status">
          <h3 ref={after} tabIndex={-1} className={styles['kept']}>
            {benchWords.kept}
          </h3>
          <ChangedReels answer={answer} unit={choices.unit} />
          <Press main onPress={onAnother}>
            {benchWords.next}
          </Press>
        </div>
      ) : null}
      <Surprise posting={posting} unit={choices.unit} onLeave={() => setTyped('')} />
      {waits === null ? null : (
        <div role="status">
          <h3 ref={after} tabIndex={-1} className={styles['kept']}>
            {benchWords.waits}
          </h3>
          <p>{waits}</p>
          <Press main onPress={onAnother}>
            {benchWords.next}
          </Press>
        </div>
      )}
      {!isOpen ? null : (
        <form
          ref={form}
          noValidate
          className={styles['onScale']}
          onSubmit={(event) => {
            event.preventDefault()
            keep()
          }}
        >
          <div className={styles['seen']}>
            {expected.error !== null ? (
              <p role="alert" className={styles['refused']}>
                <Failure of={expected.error} />
              </p>
            ) : band === undefined ? (
              <p className={styles['undrawn']}>{benchWords.reckoning}</p>
            ) : band.u > 0 ? (
              <WeighScale
                expected_g={band}
                reading_g={weighing?.reading_g ?? null}
                unit={choices.unit}
              />
            ) : (
              <p className={styles['undrawn']}>{benchWords.nothingExpected}</p>
            )}
            <p role="status" className={styles['agrees']} data-off={test?.surprising}>
              {test === null
                ? isAwaited
                  ? benchWords.testing
                  : benchWords.typeIt
                : test.surprising
                  ? benchWords.disagrees(
                      weighingWords.plain(Math.abs(test.off_g), choices.unit),
                      test.off_g,
                    )
                  : benchWords.agrees(
                      weighingWords.plain(Math.abs(test.off_g), choices.unit),
                      test.off_g,
                    )}
            </p>
          </div>
          <div className={styles['typing']}>
            <TextField
              value={typed}
              onChange={type}
              isInvalid={refused !== null}
              className={styles['figure'] ?? ''}
            >
              <Label>{benchWords.shows}</Label>
              <span className={styles['display']}>
                <Input
                  ref={field}
                  inputMode="none"
                  autoComplete="off"
                  className={styles['digits'] ?? ''}
                />
                <span aria-hidden="true">{benchWords.unitSigns[unit]}</span>
              </span>
            </TextField>
            {refused === null ? null : (
              <p role="alert" className={styles['refused']}>
                {refused}
              </p>
            )}
            <WordChoice
              label={benchWords.scaleShows}
              words={benchWords.units}
              value={unit}
              onChange={setUnit}
            />
            <Keypad hasPounds={unit === 'lb'} onKey={(key) => type(pressKey(typed, key))} />
            <Press main type="submit" isDisabled={posting.isBusy}>
              {benchWords.keep}
            </Press>
            <Refused posting={posting} />
            {serial.can ? (
              <p className={styles['listen']}>
                {serial.state === 'listening' ? (
                  <span role="status">{benchWords.listening}</span>
                ) : (
                  <Press onPress={serial.begin}>{benchWords.listen}</Press>
                )}
                {serial.state === 'failed' ? (
                  <span role="alert"> {benchWords.notHeard}</span>
                ) : null}
              </p>
            ) : null}
            <BesideField onValue={setBeside} />
            <ScaleSelect choice={choice} />
          </div>
        </form>
      )}
    </section>
  )
}

/** A value as it was before the last change, until it has stood still. */
const usePaused = (value: string, wait: number): string => {
  const [still, setStill] = useState(value)
  useEffect(() => {
    const timer = setTimeout(() => setStill(value), wait)
    return () => clearTimeout(timer)
  }, [value, wait])
  return still
}
