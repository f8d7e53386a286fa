import { dryingCautions } from '../filament/index.ts'
import { type ReelEvent, recordOfReel } from '../service/index.ts'
import { parseLength, parseMass, parseShare, withTypedDoubt } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { parsePathLength } from './parse-fed-length.ts'
import { type RecordText, recordCommand } from './record-command.ts'
import type { SheetLine } from './recorded-report.ts'
import { taken } from './taken.ts'
import { temperatureWithin } from './temperature-within.ts'

const befall = (
  reel: string,
  event: () => ReelEvent,
  typed: RecordText & { readonly accept?: boolean },
  more: readonly SheetLine[] = [],
): Promise<void> =>
  recordCommand(
    typed,
    async (ledger, said) =>
      recordOfReel(ledger, reel, event(), {
        ...said,
        ...(typed.accept === true && { accept: true }),
      }),
    more,
  )

/** A mass or a length, told apart by its unit. */
const massOrLength = (typed: string): ReelEvent => {
  if (/^[\d.,\s±+-]*$/.test(typed)) {
    throw usageFault(
      'unit_missing',
      `"${typed}" may be grams or metres: write the unit, as 12g or 4m.`,
    )
  }
  const mass = withTypedDoubt(typed, parseMass)
  if (mass.ok) return { kind: 'trimmed', mass_g: mass.value }
  const length = withTypedDoubt(typed, parseLength)
  if (length.ok) return { kind: 'trimmed', length_mm: length.value }
  throw usageFault(
    'amount_malformed',
    `"${typed}" is neither a mass nor a length. Write for example 12g or 4m.`,
  )
}

/** `reelreckon trim`: filament was cut off and thrown away. */
export const trimCommand = (
  reel: string,
  amount: string,
  typed: RecordText & { readonly accept?: boolean },
): Promise<void> => befall(reel, () => massOrLength(amount), typed)

/** `reelreckon empty`: what was left was taken off. */
export const emptyCommand = (reel: string, typed: RecordText): Promise<void> =>
  befall(reel, () => ({ kind: 'emptied' }), typed)

/** `reelreckon run-dry`: the reel ran out at the printer. */
export const runDryCommand = (
  reel: string,
  typed: RecordText & { readonly tail?: string; readonly accept?: boolean },
): Promise<void> => {
  const { tail } = typed
  return befall(
    reel,
    () => ({
      kind: 'ran-dry',
      ...(tail !== undefined && { tail_mm: parsePathLength(tail, '--tail') }),
    }),
    typed,
  )
}

/** `reelreckon dry`: the reel was dried. */
export const dryCommand = (
  reel: string,
  typed: RecordText & {
    readonly hours?: string
    readonly temperature?: string
    readonly remaining?: string
  },
): Promise<void> => {
  const { hours, temperature, remaining } = typed
  return befall(
    reel,
    () => ({
      kind: 'dried',
      ...(temperature !== undefined && {
        temperature_c: temperatureWithin(temperature, '--temperature', [0, 200]),
      }),
      ...(hours !== undefined && { hours: parseHours(hours) }),
      ...(remaining !== undefined && {
        remaining_share: taken(withTypedDoubt(remaining, parseShare), '--remaining'),
      }),
    }),
    typed,
    [
      ['next', 'Weigh it when it has cooled: what it lost was water, which only a scale tells.'],
      ...dryingCautions.map((caution, place): SheetLine => [place === 0 ? 'mind' : '', caution]),
    ],
  )
}

const parseHours = (typed: string): number => {
  const value = Number(
    /^(\d{1,4}(?:[.,]\d{1,2})?)\s*(?:h|hours?)?$/i.exec(typed.trim())?.[1]?.replace(',', '.'),
  )
  if (value > 0) return value
  throw usageFault(
    'hours_malformed',
    `--hours: "${typed}" is no time. Write for example 6.`,
    '--hours',
  )
}

/** `reelreckon move`: the reel was put somewhere else. */
export const moveCommand = (
  reel: string,
  place: string,
  typed: RecordText & { readonly air?: string },
): Promise<void> => befall(reel, () => ({ kind: 'moved', place, ...airOf(typed.air) }), typed)

const airOf = (typed: string | undefined): { readonly air?: 'room' | 'dry' } => {
  if (typed === undefined) return {}
  const air = typed.trim().toLowerCase()
  if (air === 'room' || air === 'dry') return { air }
  throw usageFault('air_unknown', `--air: "${typed}" is neither room nor dry.`, '--air')
}

/** `reelreckon retire`: the reel left the shelf. */
export const retireCommand = (
  reel: string,
  typed: RecordText & { readonly reason?: string },
): Promise<void> =>
  befall(
    reel,
    () => ({ kind: 'retired', ...(typed.reason !== undefined && { reason: typed.reason }) }),
    typed,
  )
