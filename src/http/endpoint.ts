import type { Context } from 'hono'
import type { z } from 'zod'
import type { HandedIn } from '../service/index.ts'
import { accept, type Outcome, type Refusal } from '../units/index.ts'
import type { ChangeFeed } from './change-feed.ts'
import type { Gate } from './gate.ts'
import type { LogInDelay } from './log-in-delay.ts'
import type { Parameter } from './parameter.ts'
import type { Searches } from './searches.ts'
import type { Sessions } from './sessions.ts'
import type { Surroundings } from './surroundings.ts'

/** What lives as long as the server. */
export interface Serving {
  readonly around: Surroundings
  readonly sessions: Sessions
  readonly delay: LogInDelay
  readonly feed: ChangeFeed
  readonly gate: Gate
  readonly searches: Searches
  /** Parts the answers of this run of the server from those of any other. */
  readonly mark: string
}

/** A request, checked. */
export interface Asked<B> extends Serving {
  readonly context: Context
  readonly params: Readonly<Record<string, string>>
  readonly query: Readonly<Record<string, string | undefined>>
  readonly body: B
  /** What a use case is handed; `by` is the id of who says so. */
  readonly handed: (by?: string) => HandedIn
}

/** An answer by its schema, or one made whole. */
export type Answer =
  | { readonly status?: 200 | 201; readonly json: unknown }
  /** JSON as it is sent, so that it can be kept. */
  | { readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly response: Response }

/** One thing the API can do; routes and the OpenAPI document are made of it. */
export interface Endpoint {
  readonly id: string
  readonly tag:
    | 'reels'
    | 'checks'
    | 'facts'
    | 'catalogue'
    | 'slate'
    | 'prints'
    | 'ledger'
    | 'access'
  readonly method: 'get' | 'post' | 'put' | 'patch' | 'delete'
  /** As `/api/reels/{reel}`. */
  readonly path: string
  readonly summary: string
  readonly params?: Readonly<Record<string, Parameter>>
  /** Names in the query; what fits none of them is refused before it runs. */
  readonly query?: Readonly<Record<string, Parameter>>
  /** Schema of a JSON body, or the media type of any other. */
  readonly body?: z.ZodType | string
  /** Schema of a JSON answer, or the media types of any other. */
  readonly answer: z.ZodType | string | readonly string[]
  /** Status of success; 201 stands beside 200 where something was written. */
  readonly writes?: true
  /** Most bytes of a body. */
  readonly limit?: number
  /** Reached without logging in. */
  readonly open?: true
  /** How it gets at the store. */
  readonly gate: 'read' | 'write' | 'none'
  /** Writes to the ledger through the gate by itself, after work that nobody is to wait for. */
  readonly writesLater?: true
  /** Whoever may look may use it: nothing is written down. */
  readonly onlyLooks?: true
  /** Puts another ledger in the place of the one that is served. */
  readonly replaces?: true
  /** The answer is another only where something was written: a client that has it is told so. */
  readonly isOfRevision?: true
  readonly run: (asked: Asked<unknown>) => Promise<Outcome<Answer>>
}

/** An endpoint whose body is what its schema says. */
export const endpoint = <B>(
  spec: Omit<Endpoint, 'run' | 'body'> & {
    readonly body?: z.ZodType<B> | string
    readonly run: (asked: Asked<B>) => Promise<Outcome<Answer>>
  },
): Endpoint => spec as unknown as Endpoint

/** An answer in JSON. */
export const answer = (json: unknown): Outcome<Answer> => accept({ json })

/** What was not found under a path is told with its own code, and the status 404. */
export class NotFound extends Error {
  readonly refusal: Refusal
  constructor(refusal: Refusal) {
    super(refusal.message)
    this.refusal = refusal
  }
}

/** The value, where something under a path is there. @throws NotFound */
export const found = <T>(outcome: Outcome<T>): T => {
  if (outcome.ok) return outcome.value
  throw new NotFound(outcome.refusal)
}

/** Why nothing was written to the ledger that is served. */
export const exchanged: Refusal = {
  code: 'ledger_exchanged',
  message: 'Another ledger took the place of the one this was meant for: nothing was written down.',
}

/** The header that says which ledger is meant. */
export const meantLedger = 'Reelreckon-Ledger'

/** Whether it writes to the ledger, or puts another in its place. */
export const isForOneLedger = ({
  gate,
  tag,
  replaces,
  writesLater,
}: Pick<Endpoint, 'gate' | 'tag' | 'replaces' | 'writesLater'>): boolean =>
  (gate === 'write' && tag !== 'access') || replaces === true || writesLater === true
