import type { PrinterRowJson } from '../contract/index.ts'
import { type Assumption, defaultPriors, type PrintTold, type Prior } from '../estimate/index.ts'
import { factBounds } from '../ledger/index.ts'
import { accept, measured, millimetres, type Outcome, refuse } from '../units/index.ts'
import { type Printer, unknownPrinter } from '../verdict/index.ts'

/** What is told of a printer beside its prints. */
export type ToldOfPrinter = Pick<PrinterRowJson, 'feed_factor' | 'start_allowance_mm' | 'tail_mm'>

/** The printer of one print, and what is assumed of it. */
export interface PrinterTold {
  readonly printer: Printer
  readonly assumed: readonly Assumption[]
  /** Besides, where the belief of a reel of the shelf says it itself. */
  readonly assumedOfTold?: readonly Assumption[]
}

const assumption = (id: string, what: string, { value, u, unit, source }: Prior): Assumption => ({
  id,
  what,
  value,
  u,
  unit,
  source,
})

/** A printer that no ledger has: the priors stand in for what is not told. */
export const printerTold = ({
  feed_factor: feed,
  start_allowance_mm: start,
  tail_mm: tail,
}: ToldOfPrinter): PrinterTold => {
  const priors = defaultPriors
  return {
    printer: {
      feedFactor: feed ?? unknownPrinter.feedFactor,
      startAllowance_mm: start
        ? measured(millimetres(start.value), start.u)
        : unknownPrinter.startAllowance_mm,
      tail_mm: tail ? measured(millimetres(tail.value), tail.u) : unknownPrinter.tail_mm,
    },
    assumed: [
      ...(feed
        ? []
        : [assumption('feed_factor', 'what the printer feeds per mm asked', priors.feedFactor)]),
      ...(start
        ? []
        : [
            assumption(
              'start_allowance',
              'filament used and not in the file',
              priors.startAllowance,
            ),
          ]),
      ...(tail ? [] : [assumption('tail', 'last length that can not be printed', priors.tail)]),
    ],
  }
}

/** What is told of a print on a printer of the shelf: it goes before what the shelf has. */
export interface RowBesideTold {
  /** For its tail. */
  readonly told: Printer
  /** It goes before what was learnt. */
  readonly printTold?: PrintTold
  /** Besides what the belief of a reel says itself. */
  readonly assumed: readonly Assumption[]
}

export const rowBesideTold = (
  { tail_mm }: Pick<PrinterRowJson, 'tail_mm'>,
  told: ToldOfPrinter,
): RowBesideTold => {
  const { printer, assumed } = printerTold({ ...(tail_mm && { tail_mm }), ...told })
  const printTold = printToldOf(told)
  return {
    told: printer,
    ...(printTold && { printTold }),
    // Of a printer of the shelf each belief says itself what nobody has learnt.
    assumed: assumed.filter(({ id }) => id === 'tail'),
  }
}

/** What is told of what a print takes; undefined where nothing is. */
export const printToldOf = (told: ToldOfPrinter): PrintTold | undefined => {
  if (!told.feed_factor && !told.start_allowance_mm) return undefined
  const { feedFactor, startAllowance_mm: startAllowance } = printerTold(told).printer
  return {
    ...(told.feed_factor && { feedFactor }),
    ...(told.start_allowance_mm && { startAllowance }),
  }
}

/**
 * Nothing that a printer takes beside its prints is longer than any feed path.
 *
 * @returns `length_too_large`
 */
export const pathHolds = ({
  start_allowance_mm,
  tail_mm,
  change_mm,
}: Pick<PrinterRowJson, 'start_allowance_mm' | 'tail_mm' | 'change_mm'>): Outcome<void> => {
  const [, most, unit] = factBounds.path_mm
  const told = { 'start allowance': start_allowance_mm, tail: tail_mm, change: change_mm }
  const long = Object.entries(told).find(([, length]) => (length?.value ?? 0) > most)
  if (long === undefined) return accept(undefined)
  const [what, length] = long
  return refuse({
    code: 'length_too_large',
    message: `A ${what} of ${length!.value} ${unit} is more than ${most} ${unit}, and no way from reel to nozzle is so long. Check the unit.`,
    expected: `0 to ${most} ${unit}`,
    received: `${length!.value} ${unit}`,
  })
}
