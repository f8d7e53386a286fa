import { useQuery, useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import { Form } from 'react-aria-components'
import type { MeasuredJson, PriorsJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { useSending } from '../api/use-sending.ts'
import { Press } from '../field/press.tsx'
import { TypedField } from '../field/typed-field.tsx'
import { useChoices } from '../look/choices.tsx'
import { Said } from '../look/said.tsx'
import { priorWords } from '../strings/prior-words.ts'
import { sayFailure } from '../strings/say-failure.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import { PartFrame } from './part-frame.tsx'
import { readPrior, showPrior } from './prior-value.ts'
import styles from './set-up.module.css'

type Prior = PriorsJson['priors'][number]

/** What is believed before anything is measured: as usual, as this shelf says, as it was learnt. */
export function PriorsSheet(): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const { data, error } = useQuery({ queryKey: ['priors'], queryFn: () => api.priors() })
  const { unit: chosen } = useChoices()
  const [open, setOpen] = useState<string | null>(null)
  /** Whose form was left last: there the keys go on. */
  const [from, setFrom] = useState<string | null>(null)
  const [typed, setTyped] = useState('')
  const [said, setSaid] = useState('')
  const [failed, setFailed] = useState<string | null>(null)
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean)
  const found = (data?.priors ?? []).filter(({ key }) =>
    words.every((word) => priorWords.name(key, chosen).toLowerCase().includes(word)),
  )
  const set = async (key: string, own: MeasuredJson | null): Promise<void> => {
    await api.setPrior(key, own)
    await queries.invalidateQueries()
    setOpen(null)
    setFrom(key)
    setSaid(priorWords.kept(priorWords.name(key, chosen)))
    setFailed(null)
  }
  return (
    <PartFrame part="priors" error={error}>
      <p>{priorWords.lead}</p>
      <p role="status" className={styles['said']}>
        {data === undefined ? setUpWords.fetching : said}
      </p>
      {failed === null ? null : (
        <p role="alert" className={styles['refused']}>
          <Said>{failed}</Said>
        </p>
      )}
      <TypedField label={priorWords.find} text={typed} onText={setTyped} />
      <ul className={styles['entries']}>
        {found.map((prior) => (
          <li key={prior.key}>
            <PriorEntry
              prior={prior}
              isOpen={open === prior.key}
              isLeft={from === prior.key}
              onOpen={(isOpen) => {
                setOpen(isOpen ? prior.key : null)
                setFrom(isOpen ? null : prior.key)
                setSaid('')
              }}
              onSet={(own) => set(prior.key, own)}
              onFailed={setFailed}
            />
          </li>
        ))}
      </ul>
    </PartFrame>
  )
}

function PriorEntry({
  prior: { key, unit, usual, own, learnt_factor: factor, source },
  isOpen,
  isLeft,
  onOpen,
  onSet,
  onFailed,
}: {
  readonly prior: Prior
  readonly isOpen: boolean
  readonly isLeft: boolean
  readonly onOpen: (isOpen: boolean) => void
  readonly onSet: (own: MeasuredJson | null) => Promise<void>
  readonly onFailed: (message: string) => void
}): ReactNode {
  const { unit: chosen } = useChoices()
  const name = priorWords.name(key, chosen)
  const takingBack = useSending({
    mutationFn: () => onSet(null),
    onError: (fault) => onFailed(sayFailure(fault)),
  })
  return (
    <section aria-label={name} className={styles['entry']}>
      <h2>{name}</h2>
      <dl className={styles['prior']}>
        <div>
          <dt>{priorWords.usual}</dt>
          <dd>{showPrior(usual, unit, chosen)}</dd>
        </div>
        <div>
          <dt>{priorWords.ofShelf}</dt>
          <dd>{own === null ? priorWords.asUsual : <b>{showPrior(own, unit, chosen)}</b>}</dd>
        </div>
        {factor === null ? null : (
          <div>
            <dt>{priorWords.reckonedAs}</dt>
            <dd>{priorWords.timesAsWide(factor)}</dd>
          </div>
        )}
      </dl>
      <p className={styles['soft']}>
        {priorWords.sources}: {source}
      </p>
      {isOpen ? (
        <PriorForm
          name={name}
          unit={unit}
          usual={usual}
          own={own}
          onSet={onSet}
          onLeave={() => onOpen(false)}
        />
      ) : (
        <p className={styles['presses']}>
          <Press
            autoFocus={isLeft}
            aria-label={priorWords.setOf(name)}
            onPress={() => onOpen(true)}
          >
            {priorWords.set}
          </Press>
          {own === null ? null : (
            <Press aria-label={priorWords.takeBackOf(name)} onPress={() => takingBack.mutate()}>
              {priorWords.takeBack}
            </Press>
          )}
        </p>
      )}
    </section>
  )
}

function PriorForm({
  name,
  unit,
  usual,
  own,
  onSet,
  onLeave,
}: {
  readonly name: string
  readonly unit: string
  readonly usual: MeasuredJson
  readonly own: MeasuredJson | null
  readonly onSet: (own: MeasuredJson) => Promise<void>
  readonly onLeave: () => void
}): ReactNode {
  const { unit: chosen } = useChoices()
  const [text, setText] = useState(own === null ? '' : showPrior(own, unit, chosen))
  const [refused, setRefused] = useState<string | null>(null)
  const setting = useSending({
    mutationFn: onSet,
    onError: (fault) => setRefused(sayFailure(fault)),
  })
  return (
    <Form
      className={styles['form'] ?? ''}
      onSubmit={(event) => {
        event.preventDefault()
        // What was not touched is not written anew, rounded as it is shown.
        if (own !== null && text === showPrior(own, unit, chosen)) return onLeave()
        const read = readPrior(text, unit, usual, chosen)
        if (!read.ok) return setRefused(read.refusal.message)
        setting.mutate(read.value)
      }}
    >
      <TypedField
        label={priorWords.own(name)}
        hint={priorWords.hint(showPrior(usual, unit, chosen))}
        text={text}
        onText={(next) => {
          setText(next)
          setRefused(null)
        }}
        refused={refused}
        needed
        isFirst
      />
      <p className={styles['presses']}>
        <Press type="submit" main>
          {priorWords.keep}
        </Press>
        <Press onPress={onLeave}>{setUpWords.cancel}</Press>
      </p>
    </Form>
  )
}
