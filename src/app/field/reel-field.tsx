import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useId, useState } from 'react'
import { FieldError, Input, Label, Text, TextField } from 'react-aria-components'
import { idLength, readId } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { reelWords } from '../strings/reel-words.ts'
import styles from './field.module.css'

/** The id of a reel, typed or chosen from those of the shelf. */
export function ReelField({
  label,
  hint,
  onValue,
}: {
  readonly label: string
  readonly hint: string
  /** Told at every change; null while what stands there is no id. */
  readonly onValue: (id: string | null) => void
}): ReactNode {
  const api = useApi()
  const list = useId()
  const [text, setText] = useState('')
  const [left, setLeft] = useState(false)
  const { data } = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const id = text.trim() === '' ? null : readId(text, idLength.row)
  const refused = id?.ok === false ? id.refusal.message : null
  return (
    <TextField
      value={text}
      onChange={(next) => {
        setText(next)
        setLeft(false)
        const read = readId(next, idLength.row)
        onValue(read.ok ? read.value : null)
      }}
      onBlur={() => setLeft(true)}
      isInvalid={left && refused !== null}
      className={styles['field'] ?? ''}
    >
      <Label>{label}</Label>
      <Input list={list} autoComplete="off" className={styles['input'] ?? ''} />
      <datalist id={list}>
        {data?.reels.map(({ reel }) => (
          <option key={reel.id} value={reel.id}>
            {reelWords.colourAndMake(reel)}
          </option>
        ))}
      </datalist>
      <Text slot="description" className={styles['hint'] ?? ''}>
        {hint}
      </Text>
      <FieldError className={styles['refused'] ?? ''}>{refused}</FieldError>
    </TextField>
  )
}
