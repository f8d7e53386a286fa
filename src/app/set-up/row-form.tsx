import { type ReactNode, useRef, useState } from 'react'
import { Form } from 'react-aria-components'
import type { RowRequest } from '../../contract/index.ts'
import { ProblemFault } from '../api/problem-fault.ts'
import { ChoiceField } from '../field/choice-field.tsx'
import { PickMaterial } from '../field/pick-of.tsx'
import { Press } from '../field/press.tsx'
import { TypedField } from '../field/typed-field.tsx'
import { rowWords } from '../strings/row-words.ts'
import { sayFailure } from '../strings/say-failure.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import type { RowField } from './row-field.ts'
import styles from './set-up.module.css'

type Texts = Readonly<Record<string, string>>

/** The field that a refusal of the ledger is about. */
const fieldOfCode: Readonly<Record<string, string>> = {
  name_taken: 'name',
  name_missing: 'name',
  maker_missing: 'maker',
}

/** What is asked of a row; what is not touched is not sent. */
export function RowForm({
  kind,
  title,
  fields,
  before,
  onKeep,
  onLeave,
}: {
  /** In a word. */
  readonly kind: string
  readonly title: string
  readonly fields: readonly RowField[]
  /** Of a row that is changed: keys and values. */
  readonly before: Readonly<Record<string, unknown>>
  /** @returns when it is written down */
  readonly onKeep: (told: RowRequest) => Promise<unknown>
  readonly onLeave: () => void
}): ReactNode {
  const [was] = useState<Texts>(() =>
    Object.fromEntries(fields.map(({ key, show }) => [key, show(before[key])])),
  )
  const [texts, setTexts] = useState(was)
  const [wrong, setWrong] = useState<Texts>({})
  const [failed, setFailed] = useState<string | null>(null)
  const [isBusy, setBusy] = useState(false)
  const form = useRef<HTMLFormElement>(null)

  const showWrong = (next: Texts): void => {
    setWrong(next)
    // After the fields are marked.
    requestAnimationFrame(() =>
      form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus(),
    )
  }

  const keep = async (): Promise<void> => {
    const told: Record<string, unknown> = {}
    const refused: Record<string, string> = {}
    for (const { key, read, needed } of fields) {
      const text = texts[key] ?? ''
      if (text.trim() === '') {
        if (needed === true) refused[key] = rowWords.needed
        else if (was[key] !== '') told[key] = null
        continue
      }
      if (text === was[key]) continue
      const outcome = read(text)
      if (outcome.ok) told[key] = outcome.value
      else refused[key] = outcome.refusal.message
    }
    setFailed(null)
    if (Object.keys(refused).length > 0) return showWrong(refused)
    setWrong({})
    setBusy(true)
    try {
      await onKeep(told)
    } catch (error) {
      setBusy(false)
      const code = error instanceof ProblemFault ? error.problem.code : ''
      const field = fieldOfCode[code]
      if (field !== undefined) {
        showWrong({ [field]: code === 'name_taken' ? rowWords.taken(kind) : sayFailure(error) })
      } else setFailed(sayFailure(error))
    }
  }

  return (
    <Form
      ref={form}
      aria-label={title}
      className={styles['form'] ?? ''}
      onSubmit={(event) => {
        event.preventDefault()
        void keep()
      }}
    >
      <h2>{title}</h2>
      {fields.map(({ key, label, hint, read, needed, choices, isMaterial }, place) => {
        const onText = (text: string): void => {
          setTexts({ ...texts, [key]: text })
          const { [key]: _, ...others } = wrong
          setWrong(others)
        }
        if (isMaterial === true) {
          const value = texts[key] ?? ''
          return (
            <PickMaterial
              key={key}
              label={label}
              value={value === '' ? null : value}
              onChange={(id) => onText(id ?? '')}
            />
          )
        }
        return choices === undefined ? (
          <TypedField
            key={key}
            label={label}
            hint={hint}
            text={texts[key] ?? ''}
            onText={onText}
            read={read}
            refused={wrong[key] ?? null}
            needed={needed === true}
            isFirst={place === 0}
          />
        ) : (
          <ChoiceField
            key={key}
            label={label}
            words={choices}
            value={texts[key] ?? ''}
            onChange={onText}
            refused={wrong[key] ?? null}
          />
        )
      })}
      {failed === null ? null : (
        <p role="alert" className={styles['refused']}>
          {setUpWords.notWritten}: {failed}
        </p>
      )}
      <p className={styles['presses']}>
        <Press type="submit" main isDisabled={isBusy}>
          {setUpWords.keep}
        </Press>
        <Press onPress={onLeave}>{setUpWords.cancel}</Press>
      </p>
    </Form>
  )
}
