import { z } from 'zod'
import {
  learntJson,
  makeFactsJson,
  type NamedRowKind,
  newRowRequest,
  type PriorRequest,
  priorRequest,
  priorsJson,
  type RowRequest,
  recordedJson,
  rowChangeRequest,
  rowsJson,
} from '../contract/index.ts'
import { priorKeys } from '../ledger/index.ts'
import {
  addRow,
  changeRow,
  factsOfMake,
  findMaterialId,
  type HandedIn,
  learnt,
  listPriors,
  listRows,
  motionReported,
  priorsToJson,
  type Recorded,
  recordedToJson,
  type ScaleTold,
  scaleChangeOf,
  scaleRowOf,
  setPrior,
  shelfView,
} from '../service/index.ts'
import { accept, capitalised, type Outcome, refuse } from '../units/index.ts'
import { type Answer, answer, type Endpoint, endpoint, found, NotFound } from './endpoint.ts'
import { lookedUp, rowParam } from './parameter.ts'

const kinds = Object.keys(newRowRequest) as readonly NamedRowKind[]

const kindOf = ({ kind = '' }: Readonly<Record<string, string>>): NamedRowKind => {
  const kindFound = kinds.find((each) => each === kind)
  if (kindFound !== undefined) return kindFound
  throw new NotFound({
    code: 'kind_unknown',
    message: `There are rows of the kinds ${kinds.join(', ')}.`,
    received: kind,
  })
}

const recorded = (outcome: Outcome<Recorded>, status: 200 | 201): Outcome<Answer> =>
  outcome.ok ? accept({ status, json: recordedToJson(outcome.value) }) : outcome

/** What is told of a row, as its row keeps it: by a person's names, a scale's class, a printer's report. */
const asKept = async (
  { store }: HandedIn,
  kind: NamedRowKind,
  told: RowRequest,
  isNew: boolean,
): Promise<Outcome<RowRequest>> => {
  if (kind === 'make' && typeof told['material'] === 'string') {
    const id = findMaterialId(await store.catalogue(), told['material'])
    return id.ok ? accept({ ...told, material: id.value }) : id
  }
  if (kind === 'scale') {
    const { class: _class, step_g: _step, repeatability_g: _repeat, gain: _gain, ...more } = told
    const figures = (isNew ? scaleRowOf : scaleChangeOf)(told as ScaleTold)
    return figures.ok ? accept({ ...more, ...figures.value }) : figures
  }
  const { motion_report: report, ...more } = told
  if (typeof report !== 'string') return accept(more)
  if ('motion' in more) {
    return refuse({
      code: 'motion_twice',
      message: 'The report tells of the motion, too: give it, or the values, not both.',
    })
  }
  const { firmware } = more
  const reported = motionReported(report, typeof firmware === 'string' ? firmware : undefined)
  return reported.ok ? accept({ ...reported.value, ...more }) : reported
}

const kindParam = { kind: lookedUp(z.enum(kinds), 'material, make, printer, scale or person') }
const common = { tag: 'catalogue', gate: 'write', answer: recordedJson } as const

/** What there is beside reels, and what is believed beforehand. */
export const catalogueEndpoints: readonly Endpoint[] = [
  endpoint({
    id: 'listRows',
    tag: 'catalogue',
    method: 'get',
    path: '/api/rows/{kind}',
    summary: 'The rows of a kind, in order of their names.',
    params: kindParam,
    answer: rowsJson,
    gate: 'read',
    isOfRevision: true,
    run: async ({ params, handed }) => {
      const rows = await listRows(handed(), kindOf(params))
      return rows.ok ? accept({ json: { rows: rows.value } }) : rows
    },
  }),
  ...kinds.flatMap((of) => [
    endpoint<RowRequest>({
      ...common,
      id: `add${capitalised(of)}`,
      method: 'post',
      path: `/api/rows/${of}`,
      summary: `A new ${of}.`,
      body: newRowRequest[of],
      writes: true,
      run: async ({ body, handed }) => {
        const told = await asKept(handed(), of, body, true)
        if (!told.ok) return told
        const row = told.value as unknown as Parameters<typeof addRow>[2]
        return recorded(await addRow(handed(), of, row), 201)
      },
    }),
    endpoint<RowRequest>({
      ...common,
      id: `change${capitalised(of)}`,
      method: 'patch',
      path: `/api/rows/${of}/{row}`,
      summary: `Changes what is known of a ${of}; what is not told stays, and what is null is not known any more.`,
      params: { row: rowParam('id or name') },
      body: rowChangeRequest[of],
      run: async ({ params, body, handed }) => {
        const told = await asKept(handed(), of, body, false)
        if (!told.ok) return told
        const change = told.value as Parameters<typeof changeRow>[3]
        return recorded(await changeRow(handed(), of, params['row']!, change), 200)
      },
    }),
  ]),
  endpoint({
    id: 'listMakeFacts',
    tag: 'catalogue',
    method: 'get',
    path: '/api/makes/{make}/facts',
    summary: 'What was told of a make and of no reel: empty carriers weighed, and data sheets.',
    params: { make: rowParam('name or id') },
    answer: makeFactsJson,
    gate: 'read',
    isOfRevision: true,
    run: async ({ around, params }) => {
      const view = await shelfView(around.ledger.store())
      return view.ok ? answer(found(factsOfMake(view.value, params['make']!))) : view
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
    params: { key: lookedUp(z.enum(priorKeys().map(({ key }) => key)), 'name of the prior') },
    body: priorRequest,
    run: async ({ params, body, handed }) =>
      recorded(await setPrior(handed(), params['key']!, body.own ?? undefined), 200),
  }),
]
