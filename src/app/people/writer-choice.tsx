import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useId, useState } from 'react'
import { useApi } from '../api/use-api.ts'
import { frameWords } from '../strings/frame-words.ts'
import { chooseWriter, chosenWriter, peopleIn } from './writer.ts'
import styles from './writer-choice.module.css'

/** Who writes in this browser, where the ledger knows people. */
export function WriterChoice(): ReactNode {
  const api = useApi()
  const { data } = useQuery({ queryKey: ['rows', 'person'], queryFn: () => api.rows('person') })
  const [chosen, setChosen] = useState(chosenWriter)
  const field = useId()
  const people = data === undefined ? [] : peopleIn(data)
  if (people.length === 0) return null
  return (
    <p className={styles['writer']}>
      <label htmlFor={field}>{frameWords.writer}</label>{' '}
      <select
        id={field}
        value={people.some(({ id }) => id === chosen) ? (chosen ?? '') : ''}
        onChange={({ target: { value } }) => {
          const id = value === '' ? null : value
          chooseWriter(id)
          setChosen(id)
        }}
      >
        <option value="">{frameWords.nobody}</option>
        {people.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </p>
  )
}
