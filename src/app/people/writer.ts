import type { RowsJson } from '../../contract/index.ts'
import type { Api } from '../api/api.ts'
import { keep, kept } from '../look/kept.ts'

const name = 'writer'

/** Someone the ledger at hand knows. */
export interface Person {
  readonly id: string
  readonly name: string
}

/** Who may be named. */
export const peopleIn = ({ rows }: RowsJson): readonly Person[] =>
  rows.flatMap((row) => (row.kind === 'person' ? [{ id: row.id, name: row.name }] : []))

/** Id of the person chosen in this browser; null where nobody is. */
export const chosenWriter = (): string | null => kept(name) || null

/** @param id - null: nobody */
export const chooseWriter = (id: string | null): void => keep(name, id ?? '')

/** The person chosen, where the ledger at hand knows them; null else, and where that can not be asked. */
export async function writerOf(api: Pick<Api, 'rows'>): Promise<string | null> {
  const chosen = chosenWriter()
  if (chosen === null) return null
  const people = await api.rows('person').then(peopleIn, () => [])
  return people.some(({ id }) => id === chosen) ? chosen : null
}
