import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import { useApi } from '../api/use-api.ts'
import { LineSelect } from '../field/line-select.tsx'
import { frameWords } from '../strings/frame-words.ts'
import { chooseWriter, chosenWriter, peopleIn } from './writer.ts'

/** Who writes in this browser, where the ledger knows people. */
export function WriterChoice(): ReactNode {
  const api = useApi()
  const { data } = useQuery({ queryKey: ['rows', 'person'], queryFn: () => api.rows('person') })
  const [chosen, setChosen] = useState(chosenWriter)
  const people = data === undefined ? [] : peopleIn(data)
  if (people.length === 0) return null
  return (
    <LineSelect
      label={frameWords.writer}
      choices={[{ id: '', name: frameWords.nobody }, ...people]}
      value={people.find(({ id }) => id === chosen)?.id ?? ''}
      onChange={(id) => {
        chooseWriter(id || null)
        setChosen(id || null)
      }}
    />
  )
}
