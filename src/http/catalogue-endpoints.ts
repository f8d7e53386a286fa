import {
  learntJson,
  type PriorRequest,
  priorRequest,
  priorsJson,
  type RowRequest,
  recordedJson,
  rowRequest,
  rowsJson,
} from '../contract/index.ts'
import {
  addRow,
  changeRow,
  findMaterialId,
  type HandedIn,
  learnt,
  listPriors,
  listRows,
  type NamedKind,
  priorsToJson,
  type Recorded,
  recordedToJson,
  setPrior,
  shelfView,
} from '../service/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { type Answer, type Endpoint, endpoint, NotFound } from './endpoint.ts'

const kinds: ReadonlySet<string> = new Set(['material', 'make', 'printer', 'scale', 'person'])

const kindOf = ({ kind = '' }: Readonly<Record<string, string>>): NamedKind => {
  if (kinds.has(kind)) return kind as NamedKind
  throw new NotFound({
    code: 'kind_unknown',
    message: `There are rows of the kinds ${[...kinds].join(', ')}.`,
    received: kind,
  })
}

const recorded = (outcome: Outcome<Recorded>, status: 200 | 201): Outcome<Answer> =>
  outcome.ok ? accept({ status, json: recordedToJson(outcome.value) }) : outcome

/** A make's material is kept by its id, whatever a person calls it. */
const withMaterial = async (
  { store }: HandedIn,
  kind: NamedKind,
  told: RowRequest,
): Promise<Outcome<RowRequest>> => {
  const { material } = told
  if (kind !== 'make' || typeof material !== 'string') return accept(told)
  const id = findMaterialId(await store.catalogue(), material)
  return id.ok ? accept({ ...told, material: id.value }) : id
}

const kind = { kind: 'material, make, printer, scale or person' }
const common = { tag: 'catalogue', gate: 'write', answer: recordedJson } as const

/** What there is beside reels, and what is believed beforehand. */
export const catalogueEndpoints: readonly Endpoint[] = [
  endpoint({
    id: 'listRows',
    tag: 'catalogue',
    method: 'get',
    path: '/api/rows/{kind}',
    summary: 'The rows of a kind, in order of their names.',
    params: kind,
    answer: rowsJson,
    gate: 'read',
    isOfRevision: true,
    run: async ({ params, handed }) => {
      const rows = await listRows(handed(), kindOf(params))
      return rows.ok ? accept({ json: { rows: rows.value } }) : rows
    },
  }),
  endpoint<RowRequest>({
    ...common,
    id: 'addRow',
    method: 'post',
    path: '/api/rows/{kind}',
    summary: 'A new material, make, printer, scale or person.',
    params: kind,
    body: rowRequest,
    writes: true,
    run: async ({ params, body, handed }) => {
      const of = kindOf(params)
      const told = await withMaterial(handed(), of, body)
      if (!told.ok) return told
      const { name, ...more } = told.value
      if (name === undefined) {
        return refuse({ code: 'name_missing', message: 'Give it a name: "name".' })
      }
      // The keys of the kind are checked before the row is written down.
      const row = { name, ...more } as unknown as Parameters<typeof addRow>[2]
      if (of === 'make' && typeof more['maker'] !== 'string') {
        return refuse({ code: 'maker_missing', message: 'Say whose make it is: "maker".' })
      }
      return recorded(await addRow(handed(), of, row), 201)
    },
  }),
  endpoint<RowRequest>({
    ...common,
    id: 'changeRow',
    method: 'patch',
    path: '/api/rows/{kind}/{row}',
    summary:
      'Changes what is known of one; what is not told stays, and what is null is not known any more.',
    params: { ...kind, row: 'id or name' },
    body: rowRequest,
    run: async ({ params, body, handed }) => {
      const of = kindOf(params)
      const told = await withMaterial(handed(), of, body)
      if (!told.ok) return told
      const change = told.value as Parameters<typeof changeRow>[3]
      return recorded(await changeRow(handed(), of, params['row']!, change), 200)
    },
  }),
  endpoint({
    id: 'listLearnt',
    tag: 'catalogue',
    method: 'get',
    path: '/api/learnt',
    summary:
      'What the ledger has learnt of makes, printers with the pace of their prints, and scales.',
    answer: learntJson,
    gate: 'read',
    isOfRevision: true,
    run: async ({ around }) => {
      const view = await shelfView(around.ledger.store())
      return view.ok ? accept({ json: learnt(view.value) }) : view
    },
  }),
  endpoint({
    id: 'listPriors',
    tag: 'catalogue',
    method: 'get',
    path: '/api/priors',
    summary: 'What is believed beforehand, with its source.',
    answer: priorsJson,
    gate: 'read',
    isOfRevision: true,
    run: async ({ handed }) => {
      const priors = await listPriors(handed())
      if (!priors.ok) return priors
      return accept({ json: priorsToJson(priors.value) })
    },
  }),
  endpoint<PriorRequest>({
    ...common,
    id: 'setPrior',
    method: 'put',
    path: '/api/priors/{key}',
    summary: 'Says what this shelf believes beforehand.',
    params: { key: 'name of the prior' },
    body: priorRequest,
    run: async ({ params, body, handed }) =>
      recorded(await setPrior(handed(), params['key']!, body.own ?? undefined), 200),
  }),
]
