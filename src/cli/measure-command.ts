import { measureReel, type ReelMeasure, stateOfMake } from '../service/index.ts'
import { parseDensity, parseLinearDensity, parseMass, withTypedDoubt } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { parseCalipers, parseCut, parseWinding } from './parse-reel.ts'
import { type RecordText, recordCommand } from './record-command.ts'
import { taken } from './taken.ts'
import { temperatureWithin } from './temperature-within.ts'

/** What was typed after `measure`. */
export interface MeasureText extends RecordText {
  readonly make?: string
  readonly accept?: boolean
  readonly source?: string
  readonly tare?: string
  readonly calipers?: string
  readonly cut?: string
  readonly scale?: string
  readonly density?: string
  readonly linearDensity?: string
  readonly winding?: string
  readonly air?: string
  readonly water?: string
  readonly waterTemperature?: string
}

/** Water at a bench, °C, where nobody looked. */
const roomTemperature = 22

/** `reelreckon measure`: something of a reel's filament was measured, or a sheet says it of a make. */
export const measureCommand = (reel: string | undefined, typed: MeasureText): Promise<void> =>
  recordCommand(typed, async (ledger, said) => {
    const { make } = typed
    if ((reel === undefined) === (make === undefined)) {
      throw usageFault(
        'reel_or_make',
        'Say what was measured: a reel by its id, or with --make what a sheet says of a make.',
      )
    }
    if (make !== undefined) return stateOfMake(ledger, make, sheetOf(typed), said)
    for (const option of ['tare', 'source'] as const) {
      if (typed[option] === undefined) continue
      throw usageFault(
        'of_a_make',
        option === 'tare'
          ? '--tare is what a sheet says of a make. Weigh a reel’s own empty carrier with: reelreckon weigh ID MASS --empty.'
          : '--source is of a sheet, and goes with --make.',
        `--${option}`,
      )
    }
    return measureReel(ledger, reel!, measureOf(typed), {
      ...said,
      ...(typed.accept === true && { accept: true }),
    })
  })

const sheetOf = (typed: MeasureText): Parameters<typeof stateOfMake>[2] => {
  const { source, density, tare } = typed
  for (const option of ['calipers', 'cut', 'linearDensity', 'winding', 'air', 'water'] as const) {
    if (typed[option] === undefined) continue
    const name = `--${option.replace('D', '-d')}`
    throw usageFault(
      'of_a_reel',
      `${name} is measured of one reel: name it by its id, without --make.`,
      name,
    )
  }
  if (source === undefined) {
    throw usageFault(
      'source_needed',
      "Say which sheet states it, as --source 'data sheet of 2026'.",
      '--source',
    )
  }
  return {
    source,
    ...(density !== undefined && { density_g_per_cm3: taken(parseDensity(density), '--density') }),
    ...(tare !== undefined && { tare_g: taken(withTypedDoubt(tare, parseMass), '--tare') }),
  }
}

const measureOf = (typed: MeasureText): ReelMeasure => {
  const { calipers, cut, density, linearDensity, winding } = typed
  const measure: ReelMeasure = {
    ...(calipers !== undefined && { calipers: parseCalipers(calipers, '--calipers') }),
    ...(cut !== undefined && { cut: parseCut(cut, '--cut', typed.scale) }),
    ...(density !== undefined && {
      density_g_per_cm3: taken(withTypedDoubt(density, parseDensity), '--density'),
    }),
    ...(linearDensity !== undefined && {
      linear_density_g_per_m: taken(
        withTypedDoubt(linearDensity, parseLinearDensity),
        '--linear-density',
      ),
    }),
    ...(winding !== undefined && { winding: parseWinding(winding, '--winding') }),
    ...immersionOf(typed),
  }
  if (Object.keys(measure).length > 0) return measure
  throw usageFault(
    'nothing_measured',
    "Say what was measured, as --calipers '1.74x1.76, 1.75x1.77', --cut 2m=5.96g, --density, --linear-density, --winding, or --air with --water.",
  )
}

const immersionOf = (typed: MeasureText): Pick<ReelMeasure, 'immersion'> => {
  const { air, water, waterTemperature } = typed
  if (air === undefined && water === undefined && waterTemperature === undefined) return {}
  if (air === undefined || water === undefined) {
    throw usageFault(
      'immersion_incomplete',
      'A piece is weighed twice: give --air, what it weighs in air, and --water, what it weighs hung in water.',
      air === undefined ? '--air' : '--water',
    )
  }
  return {
    immersion: {
      in_air_g: taken(withTypedDoubt(air, parseMass), '--air'),
      in_water_g: taken(withTypedDoubt(water, parseMass), '--water'),
      water_c:
        waterTemperature === undefined
          ? roomTemperature
          : temperatureWithin(waterTemperature, '--water-temperature', [0, 40]),
    },
  }
}
