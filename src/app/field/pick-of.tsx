import { useQuery } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import type { ReelHeadJson } from '../../contract/index.ts'
import { materials } from '../../filament/index.ts'
import { useApi } from '../api/use-api.ts'
import { fieldWords } from '../strings/field-words.ts'
import type { Pickable } from './find-pickable.ts'
import { PickField } from './pick-field.tsx'

interface PickProps {
  readonly label?: string
  readonly hint?: string
  readonly value: string | null
  readonly onChange: (id: string | null) => void
}

const pickable = ({
  id,
  colour,
  material,
  material_name,
  make,
  srgb,
  place,
  lot,
}: ReelHeadJson): Pickable => ({
  id,
  name: [id, colour, make].filter(Boolean).join(', '),
  words: [material, material_name, place, lot].flatMap((word) => word ?? []),
  colour: srgb,
})

/** One reel of the shelf, by id or words. */
export function PickReel({
  label = fieldWords.reel,
  all = false,
  ...rest
}: PickProps & {
  /** With those that are empty or retired. */
  readonly all?: boolean
}): ReactNode {
  const api = useApi()
  const { data } = useQuery({
    queryKey: all ? ['shelf', 'all'] : ['shelf'],
    queryFn: () => api.shelf(all),
  })
  return (
    <PickField
      {...rest}
      label={label}
      items={(data?.reels ?? []).map(({ reel }) => pickable(reel))}
    />
  )
}

/** One make, by maker and name. */
export function PickMake({
  label = fieldWords.make,
  ...rest
}: PickProps & { readonly onTyped?: (typed: string) => void }): ReactNode {
  const api = useApi()
  const { data } = useQuery({ queryKey: ['rows', 'make'], queryFn: () => api.rows('make') })
  const items = (data?.rows ?? []).flatMap((row): Pickable[] =>
    row.kind === 'make'
      ? [
          {
            id: row.id,
            name: `${row.maker} ${row.name}`,
            words: row.material == null ? [] : [row.material],
          },
        ]
      : [],
  )
  return <PickField {...rest} label={label} items={items} />
}

/** One material, those of the person's own first. */
export function PickMaterial({
  label = fieldWords.material,
  ...rest
}: PickProps & { readonly onTyped?: (typed: string) => void }): ReactNode {
  const api = useApi()
  const { data } = useQuery({ queryKey: ['rows', 'material'], queryFn: () => api.rows('material') })
  const own = (data?.rows ?? []).flatMap((row): Pickable[] =>
    row.kind === 'material' ? [{ id: row.id, name: row.name }] : [],
  )
  return <PickField {...rest} label={label} items={[...own, ...known]} />
}

const known: readonly Pickable[] = materials.map(({ id, name, aliases }) => ({
  id,
  name,
  words: aliases,
}))
