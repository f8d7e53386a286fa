import { z } from 'zod'
import { moment, words } from './ledger-parts.ts'
import { type MayJson, mays } from './may.ts'

const may = z.enum(mays)

/** Who is asking, and what they need. */
export interface SessionJson {
  readonly log_in_needed: boolean
  readonly logged_in: boolean
  /** Null for who has to log in first. */
  readonly may: MayJson | null
  readonly demo: boolean
  /** As `ChangeJson` has it; null for who has to log in first. */
  readonly ledger_id: string | null
}

/** Schema of `SessionJson`. */
export const sessionJson: z.ZodType<SessionJson> = z
  .strictObject({
    log_in_needed: z.boolean().describe('this server asks for its pass-phrase'),
    logged_in: z.boolean().describe('the asker need not log in, or has'),
    may: may.nullable().describe('what the asker may do; null for who has to log in first'),
    demo: z.boolean().describe('the demo shelf stands in the place of the own ledger'),
    ledger_id: z
      .string()
      .nullable()
      .describe('which ledger it is: the same in each run and in its backups'),
  })
  .meta({ id: 'session' })

/** What is typed to log in. */
export interface LogInRequest {
  readonly pass_phrase: string
}

/** Schema of `LogInRequest`. */
export const logInRequest: z.ZodType<LogInRequest> = z
  .strictObject({ pass_phrase: z.string().min(1).max(1024) })
  .meta({ id: 'log_in_request' })

/** A token for programs; its secret is only known to who asked for it. */
export interface TokenJson {
  readonly id: string
  readonly name: string
  readonly made_at: string
  readonly may: MayJson
}

const tokenParts = {
  id: z.string().describe('to take it back by'),
  name: words.describe('what it is for'),
  made_at: moment,
  may: may.describe(
    '`look` at everything; `record` as well what happens to reels; `set_up`: everything',
  ),
}

/** Tokens there are. */
export interface TokensJson {
  readonly tokens: readonly TokenJson[]
}

/** Schema of `TokensJson`. */
export const tokensJson: z.ZodType<TokensJson> = z.strictObject({
  tokens: z.array(z.strictObject(tokenParts).meta({ id: 'token' })),
})

/** A token that was made just now. */
export interface NewTokenJson extends TokenJson {
  readonly token: string
}

/** Schema of `NewTokenJson`. */
export const newTokenJson: z.ZodType<NewTokenJson> = z.strictObject({
  ...tokenParts,
  token: z.string().describe('the secret; shown this once'),
})

/** What a new token is for. */
export interface TokenRequest {
  readonly name: string
  readonly may?: MayJson
}

/** Schema of `TokenRequest`. */
export const tokenRequest: z.ZodType<TokenRequest> = z
  .strictObject({
    name: words.describe('what it is for'),
    may: z.exactOptional(may).describe('what it may do: only `look` unless given'),
  })
  .meta({ id: 'token_request' })
