import type { MatchAsked } from '../service/index.ts'
import { type Fault, usageFault } from './fault.ts'
import { bare, keyedParts } from './keyed-list.ts'
import { parseLayer } from './parse-layer.ts'
import { parseNext } from './parse-start.ts'

const tools = Array.from({ length: 100 }, (_, tool) => `T${tool}` as const)

type Busy = NonNullable<MatchAsked['busy']>[number]
type BusyReel = NonNullable<Busy['reels']>[number]

/**
 * A printer at work, as 'the Gull=23:30', and with what: 'the Gull=23:30, print=vase.gcode, reel=K7RMY,
 * reel=P3QX6, after-layer=17'.
 *
 * @param now - ms since 1970
 * @throws Fault of wrong usage
 */
export const parseBusy = (typed: string, now: number): Busy => {
  const [first = '', ...more] = typed.split(
    /[,;](?=\s*(?:(?:print|reel|after-layer|T\d{1,2})\s*=|ran-dry\b))/,
  )
  const [, printer, when] = /^(.+?)\s*=\s*([^=]+)$/.exec(first.trim()) ?? []
  if (printer === undefined || when === undefined) {
    throw usageFault(
      'busy_malformed',
      `--busy: "${typed}" does not say until when which printer is at work. Write 'the Gull=23:30', and what runs there 'the Gull=23:30, print=knob.gcode, reel=K7RMY'.`,
      '--busy',
    )
  }
  const until = new Date(parseNext(when, now, '--busy')).toISOString()
  return more.length === 0 ? { printer, until } : { printer, until, ...runsOf(more.join(',')) }
}

/** What runs, and its reels in the order in which they are told; what is told of a reel stands behind it. */
const runsOf = (typed: string): Pick<Busy, 'print' | 'reels'> => {
  const keys = ['print', 'reel', 'after-layer', 'ran-dry', ...tools] as const
  const reels: BusyReel[] = []
  let print: string | undefined
  for (const [key, value] of keyedParts(typed, keys, '--busy')) {
    const last = reels.at(-1)
    if (key === 'print') {
      if (print !== undefined) throw twice(key)
      print = value
    } else if (key === 'after-layer') {
      reels.splice(-1, 1, { ...behind(last, key, 'after_layer'), after_layer: layerOf(value) })
    } else if (key === 'ran-dry') {
      bare(key, value, '--busy')
      reels.splice(-1, 1, { ...behind(last, key, 'ran_dry'), ran_dry: true })
    } else {
      reels.push(key === 'reel' ? { reel: value } : { tool: Number(key.slice(1)), reel: value })
    }
  }
  return { ...(print !== undefined && { print }), reels }
}

const twice = (key: string): Fault =>
  usageFault('key_twice', `--busy: "${key}" is given twice.`, '--busy')

/** The reel that it is told of, of which it is not told yet. */
const behind = (reel: BusyReel | undefined, key: string, told: keyof BusyReel): BusyReel => {
  if (reel === undefined) {
    throw usageFault(
      'busy_malformed',
      `--busy: "${key}" stands behind the reel that it is told of, as 'reel=K7RMY, reel=P3QX6, after-layer=17'.`,
      '--busy',
    )
  }
  if (told in reel) throw twice(key)
  return reel
}

const layerOf = (typed: string): number =>
  parseLayer(typed, {
    code: 'busy_malformed',
    option: '--busy',
    how: "Write for example 'reel=K7RMY, reel=P3QX6, after-layer=17'.",
  })
