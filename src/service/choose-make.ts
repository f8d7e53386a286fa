import type { CatalogueRowJson, MakeRowJson } from '../contract/index.ts'
import { withoutMaker } from '../ledger/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { findMaterialId } from './find-material-id.ts'
import { findRow, folded, rowName, rowsOf } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import { isSlipOf } from './is-slip-of.ts'
import { newRowId } from './new-id.ts'

/** What a person tells of a make. */
export interface MakeTold {
  /** Name or id; the maker's name may stand before it. */
  readonly name: string
  readonly maker?: string
  /** Name of a material. */
  readonly material?: string
  readonly nominal_diameter_mm?: number
  readonly label_net_g?: number
  readonly carrier?: NonNullable<MakeRowJson['carrier']>
}

/** A make, known or new. */
export interface MakeChosen {
  readonly make: MakeRowJson
  /** True when the row is to be written down. */
  readonly isNew: boolean
}

/**
 * The make that is meant. One that nobody knows is new when its maker is told.
 *
 * @returns `make_unknown`, `maker_unknown` where a known maker is probably meant, `make_differs` where a known one is told otherwise, and as `findRow`,
 *   `findMaterialId`
 */
export const chooseMake = (
  handed: HandedIn,
  rows: readonly CatalogueRowJson[],
  told: MakeTold,
): Outcome<MakeChosen> => {
  const { maker } = told
  const material = told.material === undefined ? undefined : findMaterialId(rows, told.material)
  if (material?.ok === false) return material
  const name = maker === undefined ? told.name.trim() : withoutMaker(told.name, maker)
  const found = findRow(rows, 'make', maker === undefined ? name : `${maker} ${name}`)
  if (found.ok) {
    const differs = differenceOf(found.value, told, material?.value)
    return differs === undefined ? accept({ make: found.value, isNew: false }) : differs
  }
  if (found.refusal.code === 'name_ambiguous') return found
  if (maker === undefined) {
    const { message } = found.refusal
    return refuse({
      ...found.refusal,
      message: `${message}${message.includes('\n') ? '\n' : ' '}To set a new make up, say whose it is and of which material.`,
    })
  }
  const meant = makerMeant(rows, told.name, maker)
  if (meant !== undefined) {
    return refuse({
      code: 'maker_unknown',
      message: `Nobody knows a maker "${maker.trim()}", but ${meant.maker} is known, of ${rowName(meant)}. Take that name, or, if it is another maker, set the make up by itself first.`,
      expected: meant.maker,
      received: maker,
    })
  }
  const { nominal_diameter_mm, label_net_g, carrier } = told
  return accept({
    isNew: true,
    make: {
      kind: 'make',
      id: newRowId(handed, (id) => rows.some((row) => row.id === id)),
      changed_at: new Date(handed.now()).toISOString(),
      maker: maker.trim(),
      name,
      ...(material && { material: material.value }),
      ...(nominal_diameter_mm !== undefined && { nominal_diameter_mm }),
      ...(label_net_g !== undefined && { label_net_g }),
      ...(carrier && { carrier }),
    },
  })
}

/** A known maker that one nobody knows was probably meant for. */
const makerMeant = (
  rows: readonly CatalogueRowJson[],
  typed: string,
  maker: string,
): MakeRowJson | undefined => {
  const makes = rowsOf(rows, 'make')
  if (makes.some((make) => folded(make.maker) === folded(maker))) return undefined
  return (
    makes.find((make) => folded(rowName(make)) === folded(typed)) ??
    makes.find((make) => isSlipOf(maker, make.maker))
  )
}

const differenceOf = (
  make: MakeRowJson,
  { nominal_diameter_mm, carrier }: MakeTold,
  material: string | undefined,
): ReturnType<typeof refuse> | undefined => {
  const told = { material, nominal_diameter_mm, carrier }
  for (const [key, value] of Object.entries(told)) {
    const known = make[key as keyof typeof told]
    if (value === undefined || value === known) continue
    if (key === 'nominal_diameter_mm' && known === undefined && value === 1.75) continue
    return refuse({
      code: 'make_differs',
      message: `${rowName(make)} is known with another ${nameOfKey[key as keyof typeof told]}: ${known ?? 'none'}, not ${value}. Leave it out, change the make, or give the new make a name of its own.`,
      expected: String(known ?? ''),
      received: String(value),
    })
  }
  return undefined
}

const nameOfKey = {
  material: 'material',
  nominal_diameter_mm: 'diameter',
  carrier: 'carrier',
} as const
