import type { MatchJson } from '../contract/index.ts'
import { type MatchAsked, matchShelf } from '../service/index.ts'
import { parseMass } from '../units/index.ts'
import { cancelling } from './cancelling.ts'
import { exitCode, Fault, usageFault } from './fault.ts'
import { parseConfidence } from './judged.ts'
import { keyedList } from './keyed-list.ts'
import { matchReport } from './match-report.ts'
import { answered, type LedgerText, lookingAtLedger } from './open-ledger.ts'
import { parseBusy } from './parse-busy.ts'
import { jsonText } from './record-command.ts'
import { run } from './run.ts'
import { runMatch } from './run-match.ts'
import { taken } from './taken.ts'
import { WorkProgress } from './work-progress.ts'

/** What was typed after `match`. */
interface MatchText extends LedgerText {
  readonly confidence?: string
  readonly useful?: string
  readonly limit?: string
  readonly lock?: readonly string[]
  readonly forbid?: readonly string[]
  readonly newReel?: readonly string[]
  readonly drop?: readonly string[]
  readonly busy?: readonly string[]
  readonly keep?: boolean
  readonly why?: boolean
  readonly notes?: boolean
}

/** `reelreckon match`: which reel for which waiting print. */
export const matchCommand = (typed: MatchText): Promise<void> =>
  run(typed.json === true, (terminal) => {
    const asked = askedOf(typed)
    const limit_ms = limitOf(typed.limit)
    return lookingAtLedger(typed, (ledger) =>
      cancelling(async (signal) => {
        const progress = new WorkProgress(
          process.stderr,
          'matching; Ctrl-C ends with the best so far',
        )
        let plan: MatchJson
        try {
          plan = answered(
            await matchShelf(
              ledger,
              asked,
              (slate) =>
                runMatch(slate, { limit_ms, signal, progress: (done) => progress.at(done) }),
              { keep: typed.keep === true, signal },
            ),
          )
        } finally {
          progress.end()
        }
        const exit = exitOf(plan)
        if (typed.json === true) return { text: jsonText(plan), exit }
        const { why = false, notes = false } = typed
        return { text: matchReport(terminal, plan, ledger.now(), { why, notes }), exit }
      }),
    )
  })

/** 0: all is served and in time; 10: something is late, or not proven; 20: something is not served. */
const exitOf = ({ copies, ended }: MatchJson): number => {
  if (ended === 'cancelled') return exitCode.cancelled
  if (copies.some(({ printer }) => printer === null)) return 20
  return copies.some(({ late }) => late) ? 10 : 0
}

const askedOf = (typed: MatchText): MatchAsked => {
  const { lock = [], forbid = [], newReel = [], drop = [], busy = [], useful } = typed
  const confidence = parseConfidence(typed.confidence)
  return {
    ...(confidence !== undefined && { confidence }),
    ...(useful !== undefined && { useful_g: taken(parseMass(useful), '--useful').value }),
    locks: lock.map(lockOf),
    forbidden: forbid.map(forbiddenOf),
    new_reels: newReel.map(newReelOf),
    dropped: drop,
    busy: busy.map((each) => parseBusy(each, Date.now())),
  }
}

const lockOf = (typed: string): NonNullable<MatchAsked['locks']>[number] => {
  const [, waiting, copy, tool, reel] =
    /^\s*(.+?)\s*(?:#\s*(\d{1,4}))?\s*(?:,?\s*T(\d{1,2}))?\s*=\s*(.+?)\s*$/i.exec(typed) ?? []
  if (waiting !== undefined && reel !== undefined) {
    return {
      waiting,
      reel,
      ...(copy !== undefined && { copy: Number(copy) }),
      ...(tool !== undefined && { tool: Number(tool) }),
    }
  }
  throw usageFault(
    'lock_malformed',
    `--lock: "${typed}" does not say which reel is for which print. Write 'knob=K7RMY', of one copy 'knob#2=K7RMY', of one tool 'two T1=K7RMY'.`,
    '--lock',
  )
}

const forbiddenOf = (typed: string): NonNullable<MatchAsked['forbidden']>[number] => {
  const [reel = '', waiting] = typed.split(/\s+for\s+/i)
  return { reel: reel.trim(), ...(waiting !== undefined && { waiting: waiting.trim() }) }
}

const newReelOf = (typed: string): NonNullable<MatchAsked['new_reels']>[number] => {
  const keys = keyedList(
    typed.includes('=') ? typed : `make=${typed}`,
    ['make', 'label', 'colour'],
    '--new-reel',
  )
  const [make, label, colour] = [keys.get('make'), keys.get('label'), keys.get('colour')]
  if (make === undefined || make === '') {
    throw usageFault(
      'make_missing',
      `--new-reel: "${typed}" does not say of which make it is. Write 'make=Kittiwake PLA, colour=red'.`,
      '--new-reel',
    )
  }
  return {
    make,
    ...(label !== undefined && { label_net_g: taken(parseMass(label), '--new-reel').value }),
    ...(colour !== undefined && { colour }),
  }
}

const limitOf = (typed: string | undefined): number => {
  if (typed === undefined) return 10_000
  const [, figure, unit = 's'] = /^(\d{1,4}(?:[.,]\d+)?)\s*(s|min)?$/i.exec(typed.trim()) ?? []
  const seconds = Number(figure?.replace(',', '.')) * (unit.toLowerCase() === 's' ? 1 : 60)
  if (seconds > 0 && seconds <= 36_000) return seconds * 1000
  throw new Fault(exitCode.usage, {
    code: 'limit_malformed',
    message: `--limit: "${typed}" is no time to look for a plan. Write 30s or 2min.`,
    option: '--limit',
  })
}
