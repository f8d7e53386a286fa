import { type ReactNode, useRef, useState } from 'react'
import { Form } from 'react-aria-components'
import type { RowRequest } from '../../contract/index.ts'
import { ProblemFault } from '../api/problem-fault.ts'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { Said } from '../look/said.tsx'
import { rowWords } from '../strings/row-words.ts'
import { sayFailure } from '../strings/say-failure.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import { FieldEntry } from './field-entry.tsx'
import { MotionPart } from './motion-part.tsx'
import { type RowField, valueOfField } from './row-field.ts'
import styles from './set-up.module.css'
import { toldOfRow } from './told-of-row.ts'

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
  fieldsBy,
  before,
  onKeep,
  onLeave,
}: {
  /** In a word. */
  readonly kind: string
  readonly title: string
  /** What is asked, by what stands in the form. */
  readonly fieldsBy: (texts: Texts) => readonly RowField[]
  /** Of a row that is changed: keys and values. */
  readonly before: Readonly<Record<string, unknown>>
  /** @returns when it is written down */
  readonly onKeep: (told: RowRequest) => Promise<unknown>
  readonly onLeave: () => void
}): ReactNode {
  /** Of the fields that were touched. */
  const [touched, setTouched] = useState<Texts>({})
  const [wrong, setWrong] = useState<Texts>({})
  const [failed, setFailed] = useState<string | null>(null)
  const [isBusy, setBusy] = useState(false)
  const form = useRef<HTMLFormElement>(null)
  const texts = textsBy(fieldsBy, before, touched)
  const fields = fieldsBy(texts)
  const change = (more: Texts): void => {
    setTouched((now) => ({ ...now, ...more }))
    setWrong((now) => Object.fromEntries(Object.entries(now).filter(([key]) => !(key in more))))
  }

  const showWrong = (next: Texts): void => {
    setWrong(next)
    // After the fields are marked.
    requestAnimationFrame(() =>
      form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus(),
    )
  }

  const keep = async (): Promise<void> => {
    const { told, refused } = toldOfRow(before, fields, touched)
    setFailed(null)
    // All slips are shown at once; only then what was typed in a list and not picked.
    if (Object.keys(refused).length > 0) return showWrong(refused)
    if (form.current !== null && goToUnread(form.current)) return
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

  const entry = (field: RowField, place: number): ReactNode => (
    <FieldEntry
      key={field.key}
      field={field}
      text={texts[field.key] ?? ''}
      refused={wrong[field.key] ?? null}
      isFirst={place === 0}
      onText={(text) => change({ [field.key]: text })}
    />
  )
  const plain = fields.filter(({ within }) => within === undefined)
  const motion = fields.filter(({ within }) => within === 'motion')
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
      {plain.map(entry)}
      {motion.length === 0 ? null : (
        <MotionPart
          texts={texts}
          isWrong={motion.some(({ key }) => wrong[key] !== undefined)}
          onTexts={change}
        >
          {motion.map((field) => entry(field, plain.length))}
        </MotionPart>
      )}
      {failed === null ? null : (
        <p role="alert" className={styles['refused']}>
          {setUpWords.notWritten}: <Said>{failed}</Said>
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

/** What stands in the form: which fields there are may depend on it, so those first that are always there. */
const textsBy = (
  fieldsBy: (texts: Texts) => readonly RowField[],
  before: Readonly<Record<string, unknown>>,
  touched: Texts,
): Texts => {
  const shown = (fields: readonly RowField[]): Texts => ({
    ...Object.fromEntries(
      fields.map((field) => [field.key, field.show(valueOfField(before, field))]),
    ),
    ...touched,
  })
  return shown(fieldsBy(shown(fieldsBy(touched))))
}
