import type {
  CheckJson,
  ClockJson,
  RunningClockJson,
  RunningToldJson,
} from '../../contract/index.ts'
import type { RunningPrint } from './running-print.ts'

/**
 * What a person was told of a print when it was started, to be kept with it.
 *
 * @param isPlanned - false while its times are those of another printer: they are not told then
 */
export const toldAtStart = (
  { tools, time }: CheckJson,
  isPlanned: boolean,
): Pick<RunningPrint, 'takes' | 'told'> => {
  const clock = (one: ClockJson | null): RunningClockJson | null =>
    isPlanned && one !== null ? plain(one) : null
  return {
    ...(isPlanned && time && { takes: plain(time.takes) }),
    told: tools.map(
      ({ tool, verdict, run_dry: { early, likely, clock: dry }, change_before: change }) => ({
        tool,
        verdict,
        // Of a reel that is enough nothing else is told.
        ...(verdict !== 'enough' &&
          (early !== null || likely !== null) && {
            run_dry: { early: place(early), likely: place(likely), clock: clock(dry) },
          }),
        ...(verdict !== 'enough' &&
          change && {
            change_before: {
              layer: change.layer,
              height_mm: change.height_mm,
              clock: clock(change.clock),
              ...(isPlanned &&
                change.earlier.length > 0 && {
                  earlier: change.earlier.map(({ layer, height_mm, clock: ends }) => ({
                    layer,
                    height_mm,
                    clock: plain(ends),
                  })),
                }),
            },
          }),
      }),
    ),
  }
}

/** Counted from the start; as moments they would be of another one. */
const plain = ({ early_s, likely_s, late_s }: ClockJson): RunningClockJson => ({
  early_s,
  likely_s,
  late_s,
})

type Dry = NonNullable<RunningToldJson['run_dry']>

const place = (point: CheckJson['run_dry']['early']): Dry['early'] =>
  point && { layer: point.layer, height_mm: point.height_mm }
