import {
  type RunningChangeRequest,
  type RunningRequest,
  recordedJson,
  runningChangeRequest,
  runningPrintsJson,
  runningRequest,
} from '../contract/index.ts'
import { changeRunning, recordedToJson, startRunning, tellRunning } from '../service/index.ts'
import { accept } from '../units/index.ts'
import { type Endpoint, endpoint } from './endpoint.ts'
import { lookedUp, typedFactId } from './parameter.ts'

/** Prints that were started and have not ended. */
export const runningEndpoints: readonly Endpoint[] = [
  endpoint({
    id: 'listRunning',
    tag: 'slate',
    method: 'get',
    path: '/api/running',
    summary: 'The prints that run, the one started first first.',
    answer: runningPrintsJson,
    gate: 'read',
    run: async ({ around }) => accept({ json: await tellRunning(around.ledger.store()) }),
  }),
  endpoint<RunningRequest>({
    id: 'startRunning',
    tag: 'slate',
    method: 'post',
    path: '/api/running',
    summary:
      'A print was started: it runs, and takes nothing off its reels, until its draw is posted with the same id, which ends it.',
    body: runningRequest,
    answer: recordedJson,
    gate: 'write',
    writes: true,
    run: async ({ body, handed }) => {
      const done = await startRunning(handed(), body)
      return done.ok ? accept({ status: 201, json: recordedToJson(done.value) }) : done
    },
  }),
  endpoint<RunningChangeRequest>({
    id: 'changeRunning',
    tag: 'slate',
    method: 'patch',
    path: '/api/running/{running}',
    summary:
      'Another reel took over in a print that runs, or it ended without a draw; what is not told stays.',
    params: { running: lookedUp(typedFactId, 'its id') },
    body: runningChangeRequest,
    answer: recordedJson,
    gate: 'write',
    run: async ({ params, body, handed }) => {
      const done = await changeRunning(handed(), params['running']!, body)
      return done.ok ? accept({ json: recordedToJson(done.value) }) : done
    },
  }),
]
