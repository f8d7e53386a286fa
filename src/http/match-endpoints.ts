import {
  type MatchRequest,
  matchJson,
  matchRequest,
  type PlanRequest,
  planJson,
  planRequest,
  recordedJson,
  searchEndedJson,
} from '../contract/index.ts'
import { keepPlan, keptPlan, matchShelf, recordedToJson } from '../service/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { type Asked, type Endpoint, endpoint, NotFound } from './endpoint.ts'
import { rowParam } from './parameter.ts'
import { problemOf } from './problem.ts'
import { refusalOfThrown } from './thrown.ts'

/** Looks for a plan until it is found, or the search is ended by its name, or whoever asked hangs up. */
const match = async (
  { around, body, handed, searches }: Asked<MatchRequest>,
  hungUp: AbortSignal,
  progress?: (done: number) => void,
): Promise<Outcome<unknown>> => {
  const { limit_s, search, ...asked } = body
  return searches.run(search, hungUp, (signal) =>
    matchShelf(
      handed(),
      asked,
      (slate) =>
        around.match(slate, {
          signal,
          ...(limit_s !== undefined && { limit_ms: limit_s * 1000 }),
          ...(progress && { progress }),
        }),
      { signal },
    ),
  )
}

/** The same as server-sent events: `progress`, and in the end `answer` or `problem`. */
const told = (asked: Asked<MatchRequest>): Response => {
  const encoder = new TextEncoder()
  /** Aborted once nobody listens any more: to a stream that was let go nothing can be said. */
  const letGo = new AbortController()
  const body = new ReadableStream<Uint8Array>({
    async start(controller) {
      const say = (event: string, data: unknown): void => {
        if (letGo.signal.aborted) return
        controller.enqueue(encoder.encode(`event: ${event}\ndata: ${JSON.stringify(data)}\n\n`))
      }
      const hungUp = AbortSignal.any([asked.context.req.raw.signal, letGo.signal])
      try {
        const done = await match(asked, hungUp, (share) => say('progress', { done: share }))
        if (done.ok) say('answer', done.value)
        else say('problem', problemOf(done.refusal))
      } catch (error) {
        say('problem', problemOf(...refusalOfThrown(error)))
      }
      if (!letGo.signal.aborted) controller.close()
    },
    cancel: () => letGo.abort(),
  })
  return new Response(body, {
    headers: {
      'content-type': 'text/event-stream',
      'cache-control': 'no-store',
      'x-accel-buffering': 'no',
    },
  })
}

/** Which reel for which print. */
export const matchEndpoints: readonly Endpoint[] = [
  endpoint<MatchRequest>({
    id: 'match',
    tag: 'slate',
    method: 'post',
    path: '/api/matches',
    summary:
      'Which reel for which waiting print; nothing is written down. Where `text/event-stream` is accepted the progress is told on the way, as server-sent events `progress`, then `answer` or `problem`. To hang up ends the search, and so does its `search`, which gets the best plan so far.',
    body: matchRequest,
    answer: matchJson,
    gate: 'read',
    run: async (asked) => {
      if (asked.context.req.header('accept')?.includes('text/event-stream') === true) {
        return accept({ response: told(asked) })
      }
      const plan = await match(asked, asked.context.req.raw.signal)
      return plan.ok ? accept({ json: plan.value }) : plan
    },
  }),
  endpoint({
    id: 'endSearch',
    tag: 'slate',
    method: 'delete',
    path: '/api/matches/{search}',
    summary:
      'Ends a search for a plan by the name it was given: whoever asked for it gets the best plan so far, `ended` as `cancelled`.',
    params: { search: rowParam('the `search` it was asked with') },
    answer: searchEndedJson,
    gate: 'read',
    run: async ({ params, searches }) => {
      const search = params['search']!
      if (searches.end(search)) return accept({ json: { ended: true } })
      throw new NotFound({
        code: 'search_not_found',
        message: `No search of the name ${search} is under way. It may have come to its end.`,
        received: search,
      })
    },
  }),
  endpoint({
    id: 'showPlan',
    tag: 'slate',
    method: 'get',
    path: '/api/plan',
    summary: 'The plan that was kept last.',
    answer: planJson,
    gate: 'read',
    isOfRevision: true,
    run: async ({ handed }) => accept({ json: await keptPlan(handed()) }),
  }),
  endpoint<PlanRequest>({
    id: 'keepPlan',
    tag: 'slate',
    method: 'put',
    path: '/api/plan',
    summary: 'Keeps a plan: the next match differs from it as little as it can.',
    body: planRequest,
    answer: recordedJson,
    gate: 'write',
    run: async ({ body, handed }) => {
      const kept = await keepPlan(handed(), body.choices)
      return kept.ok ? accept({ json: recordedToJson(kept.value) }) : kept
    },
  }),
]
