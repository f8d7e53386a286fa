import {
  recordedJson,
  slateJson,
  type WaitingChangeRequest,
  type WaitingRequest,
  waitingChangeRequest,
  waitingRequest,
} from '../contract/index.ts'
import {
  addWaiting,
  changeWaiting,
  everWaiting,
  findWaiting,
  recordedToJson,
  slateOf,
  tellSlate,
} from '../service/index.ts'
import { accept } from '../units/index.ts'
import { type Endpoint, endpoint } from './endpoint.ts'
import { rowParam, yesParam } from './parameter.ts'

const common = { tag: 'slate', gate: 'write', answer: recordedJson } as const

/** Prints that wait. */
export const slateEndpoints: readonly Endpoint[] = [
  endpoint({
    id: 'listSlate',
    tag: 'slate',
    method: 'get',
    path: '/api/slate',
    summary: 'The prints that wait, the most urgent first; or one of them, or all there ever were.',
    query: {
      all: yesParam(
        'with those that are done or taken off, in the order in which they came, where it is `true`',
      ),
      waiting: rowParam('id or name of one, done or not'),
    },
    answer: slateJson,
    gate: 'read',
    run: async ({ around, query }) => {
      const store = around.ledger.store()
      const rows = await store.catalogue()
      const { waiting, all } = query
      const one = waiting === undefined ? undefined : findWaiting(rows, waiting)
      if (one?.ok === false) return one
      const told = one ? [one.value] : all === 'true' ? everWaiting(rows) : slateOf(rows)
      return accept({ json: await tellSlate(store, told) })
    },
  }),
  endpoint<WaitingRequest>({
    ...common,
    id: 'addWaiting',
    method: 'post',
    path: '/api/slate',
    summary: 'Puts a print that was kept on the slate.',
    body: waitingRequest,
    writes: true,
    run: async ({ body: { print, ...told }, handed }) => {
      const done = await addWaiting(handed(), { kept: print }, told)
      return done.ok ? accept({ status: 201, json: recordedToJson(done.value) }) : done
    },
  }),
  endpoint<WaitingChangeRequest>({
    ...common,
    id: 'changeWaiting',
    method: 'patch',
    path: '/api/slate/{waiting}',
    summary:
      'Changes what is wanted of a waiting print, takes it off the slate or puts it back; what is not told stays.',
    params: { waiting: rowParam('id or name') },
    body: waitingChangeRequest,
    run: async ({ params, body, handed }) => {
      const done = await changeWaiting(handed(), params['waiting']!, body)
      return done.ok ? accept({ json: recordedToJson(done.value) }) : done
    },
  }),
]
