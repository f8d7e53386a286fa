import type { StoppedAtJson } from '../contract/index.ts'
import { parseLength, parseShare, withTypedDoubt } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { keyedList } from './keyed-list.ts'
import { taken } from './taken.ts'

/** Where a print ended, and how finely a share of it was told. */
export interface StopTold {
  readonly stoppedAt: StoppedAtJson
  readonly shareDoubt?: number
}

/** No share is known better than this by looking: common practice, no source. */
const leastDoubt = 0.002

/** `layer=120`, `share=40%` or `height=31mm`. @throws Fault of wrong usage */
export const parseStop = (typed: string, option: string): StopTold => {
  const parts = keyedList(typed, ['layer', 'share', 'height'], option)
  const [[key, text] = [], ...more] = [...parts]
  if (text === undefined || more.length > 0) {
    throw usageFault(
      'stop_malformed',
      `${option} takes one of layer=120, share=40% and height=31mm.`,
      option,
    )
  }
  if (key === 'layer') {
    if (/^[1-9]\d{0,6}$/.test(text)) return { stoppedAt: { layer: Number(text) } }
    throw usageFault('stop_malformed', `${option}: "${text}" is no number of a layer.`, option)
  }
  if (key === 'share') {
    const { value, u } = taken(withTypedDoubt(text, parseShare), option)
    return { stoppedAt: { share: value }, shareDoubt: Math.max(leastDoubt, u) }
  }
  return { stoppedAt: { height_mm: taken(parseLength(text), option).value } }
}
