import { z } from 'zod'
import { type ClockJson, clockJson } from './clock-json.ts'
import { moment, rowId, words } from './ledger-parts.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'

/** What is asked of a match; nothing: the slate as it is. */
export interface MatchRequest {
  readonly confidence?: number
  readonly useful_g?: number
  readonly limit_s?: number
  readonly search?: string
  readonly locks?: readonly {
    readonly waiting: string
    readonly copy?: number
    readonly tool?: number
    readonly reel: string
  }[]
  readonly forbidden?: readonly { readonly reel: string; readonly waiting?: string }[]
  readonly new_reels?: readonly {
    readonly make: string
    readonly label_net_g?: number
    readonly colour?: string
  }[]
  readonly dropped?: readonly string[]
  readonly busy?: readonly {
    readonly printer: string
    readonly until?: string
    readonly print?: string
    readonly reels?: readonly {
      readonly tool?: number
      readonly reel: string
      readonly after_layer?: number
      readonly ran_dry?: boolean
    }[]
  }[]
}

/** Schema of `MatchRequest`. */
export const matchRequest: z.ZodType<MatchRequest> = z
  .strictObject({
    confidence: z
      .exactOptional(z.number().gt(0.5).lt(1))
      .describe('chance with which each print finishes at least; 0.95 unless given'),
    useful_g: z
      .exactOptional(z.number().nonnegative().max(100_000))
      .describe('less left on a reel is a stub; learnt from past prints unless given'),
    limit_s: z
      .exactOptional(z.number().positive().max(600))
      .describe('how long to look for better plans; 10 unless given'),
    search: z
      .exactOptional(words)
      .describe('a name of your own for the search, by which it can be ended'),
    locks: z
      .exactOptional(
        z
          .array(
            z.strictObject({
              waiting: words.describe('name or id of the waiting print'),
              copy: z.exactOptional(z.int().positive()).describe('all that wait unless given'),
              tool: z.exactOptional(z.int().nonnegative()).describe('the only one unless given'),
              reel: words.describe(
                'the only reel that may feed it; where it may be changed in mid-print, one that feeds a part of it, and each of several does',
              ),
            }),
          )
          .max(1000),
      )
      .describe('choices that have to be kept'),
    forbidden: z
      .exactOptional(
        z
          .array(
            z.strictObject({
              reel: words,
              waiting: z.exactOptional(words).describe('for this print only; for all unless given'),
            }),
          )
          .max(1000),
      )
      .describe('reels that must not be taken'),
    new_reels: z
      .exactOptional(
        z
          .array(
            z.strictObject({
              make: words.describe('name or id'),
              label_net_g: z
                .exactOptional(z.number().positive())
                .describe('the make’s unless given'),
              colour: z.exactOptional(words),
            }),
          )
          .max(100),
      )
      .describe('reels as if they were on the shelf, new'),
    dropped: z
      .exactOptional(z.array(words).max(1000))
      .describe('waiting prints as if off the slate'),
    busy: z
      .exactOptional(
        z
          .array(
            z.strictObject({
              printer: words.describe('name or id'),
              until: z
                .exactOptional(moment)
                .describe('when the print that runs on it is done; it can begin now unless given'),
              print: z
                .exactOptional(words)
                .describe(
                  'what runs: name or id of a waiting print, name of a file that was kept, or the beginning of a hash; what it takes comes off its reels first, and of a print that waits one copy is not planned',
                ),
              reels: z
                .exactOptional(
                  z
                    .array(
                      z.strictObject({
                        tool: z
                          .exactOptional(z.int().nonnegative())
                          .describe('the only one unless given'),
                        reel: words,
                        after_layer: z
                          .exactOptional(z.int().positive())
                          .describe(
                            'it took over once this layer was done, from the reel of the same tool told before it, which has come off; from the start unless given',
                          ),
                        ran_dry: z
                          .exactOptional(z.boolean())
                          .describe('it ran out in this print: nothing is planned from it'),
                      }),
                    )
                    .max(100),
                )
                .describe(
                  'from which reels it runs, those of a tool in the order in which they fed it: the last of each tool is on the printer until it is done',
                ),
            }),
          )
          .max(1000),
      )
      .describe(
        'printers at work, in the place of what is known to run on each; the others can begin now',
      ),
  })
  .meta({ id: 'match_request' })

/** What ending a search answers. */
export interface SearchEndedJson {
  readonly ended: true
}

/** Schema of `SearchEndedJson`. */
export const searchEndedJson: z.ZodType<SearchEndedJson> = z
  .strictObject({
    ended: z.literal(true).describe('whoever asked for the plan gets the best so far'),
  })
  .meta({ id: 'search_ended' })

/** What one reel does for one tool of a copy. */
export interface DutyJson {
  readonly tool: number
  readonly reel: string
  readonly reel_name: string
  readonly after_layer: number
  readonly until_layer: number | null
  readonly needed_g: MeasuredJson
  readonly others: readonly string[]
  readonly why: readonly string[]
}

/** A change of reels in mid-print. */
export interface PlannedChangeJson {
  readonly tool: number
  readonly after_layer: number
  readonly height_mm: number
  readonly drawn_mm: number
  readonly from: string
  readonly to: string
  readonly stays_g: MeasuredJson
  readonly cost_g: MeasuredJson
  /** When it comes, after the start of the print; null where that is not known. */
  readonly clock: ClockJson | null
}

/** What an unserved copy is short of. */
export interface MissingJson {
  readonly tool: number
  readonly wanted: string
  readonly needed_g: MeasuredJson | null
  readonly short_g: number | null
  readonly before: readonly { readonly reel: string; readonly until_layer: number }[]
  readonly nearest: string | null
  readonly words: string
}

/** What would serve a copy that is not served. */
export interface RemedyJson {
  readonly words: string
  /** Of the command line, behind `reelreckon`; null where no command does it. */
  readonly command: string | null
}

/** One copy of a waiting print in a plan. */
export interface MatchCopyJson {
  readonly waiting: string
  readonly copy: number
  readonly name: string
  readonly due: string | null
  readonly printer: string | null
  readonly printer_name: string | null
  readonly chance: number | null
  readonly begins_h: number | null
  readonly ends_h: number | null
  readonly late: boolean
  readonly waits_for: string | null
  /** Where that is until this begins. */
  readonly waits_at: string | null
  readonly puts_on: readonly {
    readonly tool: number
    readonly reel: string
    readonly off: string | null
    readonly from: string | null
  }[]
  readonly differs: boolean
  readonly duties: readonly DutyJson[]
  readonly changes: readonly PlannedChangeJson[]
  readonly note: string | null
  readonly missing: readonly MissingJson[]
  readonly remedies: readonly RemedyJson[]
}

/** A reel after a plan. */
export interface MatchReelJson {
  readonly reel: string
  readonly name: string
  readonly colour_srgb: string | null
  readonly holds_g: MeasuredJson
  readonly left_g: MeasuredJson
  readonly tail_g: MeasuredJson
  readonly chance: number
  readonly stub: boolean
  readonly opened: boolean
  readonly imagined: boolean
  readonly running: readonly {
    readonly printer: string
    readonly printer_name: string
    readonly file: string
    readonly tool: number
    readonly after_layer: number
    readonly until_layer: number | null
    readonly needed_g: MeasuredJson
    readonly chance: number
  }[]
  readonly duties: readonly {
    readonly waiting: string
    readonly copy: number
    readonly tool: number
    readonly name: string
    readonly needed_g: MeasuredJson
  }[]
}

/** What `match --json` writes. */
export interface MatchJson {
  readonly confidence: number
  readonly useful_g: number
  readonly ended: 'done' | 'time' | 'cancelled'
  readonly proven: boolean
  readonly kept: boolean
  readonly levels: readonly {
    readonly level: string
    readonly importance: number | null
    readonly value: number
    readonly bound: number
  }[]
  readonly copies: readonly MatchCopyJson[]
  readonly reels: readonly MatchReelJson[]
  readonly orders: readonly {
    readonly printer: string
    readonly name: string
    readonly free_h: number
    readonly running: readonly string[]
    readonly copies: readonly { readonly waiting: string; readonly copy: number }[]
    readonly swaps: number
  }[]
  readonly notes: readonly string[]
}

const whole = z.int().nonnegative()
const reelId = z.string().describe('id of a reel, or `new 1` of one that is imagined')
const hours = z.number().nullable()

const duty = z
  .strictObject({
    tool: whole,
    reel: reelId,
    reel_name: z.string(),
    after_layer: whole.describe('layer after which the reel comes in; 0: it begins the print'),
    until_layer: whole
      .nullable()
      .describe('layer after which it is changed; null: it ends the print'),
    needed_g: measuredJson.describe('what it gives, start or change included'),
    others: z
      .array(reelId)
      .describe('other reels that fit and are not forbidden, the fullest first'),
    why: z.array(z.string()).describe('why this reel and not the obvious other'),
  })
  .meta({ id: 'duty' })

const plannedChange = z
  .strictObject({
    tool: whole,
    after_layer: whole,
    height_mm: z.number(),
    drawn_mm: z.number().describe('drawn by then, as the file asks'),
    from: reelId,
    to: reelId,
    stays_g: measuredJson.describe('on the reel that comes off, after all it is asked to do'),
    cost_g: measuredJson.describe('what the change takes of the reel that comes in'),
    clock: clockJson
      .nullable()
      .describe('when it comes, after the start of the print; null where that is not known'),
  })
  .meta({ id: 'planned_change' })

const missing = z
  .strictObject({
    tool: whole,
    wanted: z.string().describe('material and colours'),
    needed_g: measuredJson.nullable().describe('what it takes; null where no reel fits'),
    short_g: z.number().nullable().describe('what the nearest reel lacks to be sure enough'),
    before: z
      .array(z.strictObject({ reel: reelId, until_layer: whole }))
      .describe('reels that feed before the nearest, where changes are allowed'),
    nearest: reelId.nullable(),
    words: z.string(),
  })
  .meta({ id: 'missing' })

const remedy = z
  .strictObject({
    words: z.string(),
    command: z.string().nullable().describe('how it is done at the command line, if by a command'),
  })
  .meta({ id: 'remedy' })

const copy = z
  .strictObject({
    waiting: rowId,
    copy: z.int().positive(),
    name: z.string(),
    due: z.string().nullable(),
    printer: z.string().nullable().describe('id; null where it is not served'),
    printer_name: z.string().nullable(),
    chance: z.number().nullable().describe('that it finishes after all that its reels do before'),
    begins_h: hours.describe(
      'hours from now, at the latest as far as durations are only planned; null where they are not known',
    ),
    ends_h: hours.describe('as `begins_h`: by then it is done'),
    late: z.boolean(),
    waits_for: reelId
      .nullable()
      .describe('reel that is still on another printer when this one is free'),
    waits_at: z
      .string()
      .nullable()
      .describe('name of that printer; it begins when the reel comes off'),
    puts_on: z
      .array(
        z.strictObject({
          tool: whole,
          reel: reelId,
          off: reelId.nullable().describe('reel that comes off for it, as far as it is known'),
          from: z
            .string()
            .nullable()
            .describe('name of the printer that the reel comes off; its own for another tool'),
        }),
      )
      .describe('what is put on before it begins; a reel that is on already is not'),
    differs: z.boolean().describe('from the plan that was kept'),
    duties: z.array(duty),
    changes: z.array(plannedChange).describe('changes of reels in mid-print'),
    note: z.string().nullable().describe('what to write on the note by the printer, of changes'),
    missing: z.array(missing).describe('of a copy that is not served'),
    remedies: z.array(remedy).describe('what would serve it, the cheapest first'),
  })
  .meta({ id: 'match_copy' })

const reel = z
  .strictObject({
    reel: reelId,
    name: z.string(),
    colour_srgb: z.string().nullable(),
    holds_g: measuredJson.describe('now, what runs not taken off'),
    left_g: measuredJson.describe('after what runs and the plan, tail included'),
    tail_g: measuredJson.describe('of that the last length, which can not be printed'),
    chance: z.number().describe('that it lasts for all that it is asked to do'),
    stub: z.boolean().describe('what is left is too little to be useful'),
    opened: z.boolean().describe('the plan opens it'),
    imagined: z.boolean().describe('not on the shelf: a new one as asked'),
    running: z
      .array(
        z.strictObject({
          printer: z.string(),
          printer_name: z.string(),
          file: z.string(),
          tool: whole,
          after_layer: whole.describe('layer after which the reel came in; 0: it began the print'),
          until_layer: whole
            .nullable()
            .describe('layer after which it came off; null: it ends the print'),
          needed_g: measuredJson.describe(
            'what the print takes of it between these, however far it is',
          ),
          chance: z.number().describe('that the reel lasts for what runs'),
        }),
      )
      .describe('prints that run from it: before all else'),
    duties: z.array(
      z.strictObject({
        waiting: rowId,
        copy: z.int().positive(),
        tool: whole,
        name: z.string(),
        needed_g: measuredJson,
      }),
    ),
  })
  .meta({ id: 'match_reel' })

/** Schema of `MatchJson`. */
export const matchJson: z.ZodType<MatchJson> = z
  .strictObject({
    confidence: z.number().describe('chance with which each print finishes at least'),
    useful_g: z.number().describe('less left on a reel is a stub'),
    ended: z.enum(['done', 'time', 'cancelled']).describe('why the search ended'),
    proven: z.boolean().describe('no plan is better at any level'),
    kept: z.boolean().describe('the plan was kept'),
    levels: z
      .array(
        z
          .strictObject({
            level: z
              .string()
              .describe('`unserved`, `late`, `changes`, `opened`, `different`, `stubs`, `swaps`'),
            importance: z.number().nullable().describe('of `unserved`: the importance meant'),
            value: z.number(),
            bound: z.number().describe('no plan that is as good before can have less'),
          })
          .meta({ id: 'match_level' }),
      )
      .describe('how good the plan is, in the order that counts; less is better'),
    copies: z.array(copy).describe('every copy that waits, the most urgent first'),
    reels: z
      .array(reel)
      .describe('reels that fit anything that waits, and those that prints run from'),
    orders: z
      .array(
        z
          .strictObject({
            printer: z.string(),
            name: z.string(),
            free_h: z.number().describe('hours from now until it can begin'),
            running: z.array(z.string()).describe('files of the prints that run on it, as told'),
            copies: z.array(z.strictObject({ waiting: rowId, copy: z.int().positive() })),
            swaps: whole.describe('how often a reel is put on'),
          })
          .meta({ id: 'printer_order' }),
      )
      .describe('the copies along each printer, in order'),
    notes: z.array(z.string()).describe('what a person should know beside'),
  })
  .meta({ id: 'match' })
