import {
  type DrawRequest,
  drawRequest,
  type EventRequest,
  eventRequest,
  idLength,
  type MeasureRequest,
  measureRequest,
  type PutRightRequest,
  putRightRequest,
  readId,
  recordedJson,
  type SheetRequest,
  sheetRequest,
  type WeighRequest,
  weighRequest,
} from '../contract/index.ts'
import {
  measureReel,
  putRight,
  type Recorded,
  recordDraw,
  recordOfReel,
  stateOfMake,
  type ToolFed,
  weigh,
} from '../service/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { type Endpoint, endpoint } from './endpoint.ts'
import { plainReel, recordOnce } from './record-once.ts'
import { saidOf, weighingOf } from './told.ts'

const told = (outcome: Outcome<Recorded>): Outcome<{ readonly recorded: Recorded }> =>
  outcome.ok ? accept({ recorded: outcome.value }) : outcome

const fedOf = ({ tool, reel, ran_dry, after_layer }: DrawRequest['reels'][number]): ToolFed => ({
  reel,
  ...(tool !== undefined && { tool }),
  ...(ran_dry !== undefined && { ranDry: ran_dry }),
  ...(after_layer !== undefined && { afterLayer: after_layer }),
})

const common = { tag: 'facts', method: 'post', answer: recordedJson, gate: 'write' } as const

/** Facts are posted; with an `id` made by the client, as often as it takes. */
export const factEndpoints: readonly Endpoint[] = [
  endpoint<WeighRequest>({
    ...common,
    id: 'weigh',
    path: '/api/weighings',
    summary:
      'A weighing: tested first, and not written down where it is surprising and not accepted.',
    body: weighRequest,
    writes: true,
    run: (asked) => {
      const { reel, make, empty, another, label_net_g, weighing } = asked.body
      const { accept: isAccepted, test } = asked.body
      const claims = {
        kind: empty === true || reel === undefined ? 'carrier-weighed' : 'weighed',
        reel: plainReel(reel),
        make: reel === undefined ? make : undefined,
        label_net_g,
        weighing: { reading_g: weighing.reading_g },
      }
      return recordOnce(asked, claims, async (handed) => {
        const weighed = await weigh(handed, {
          ...saidOf(asked.body),
          ...(reel !== undefined && { reel }),
          ...(make !== undefined && { make }),
          ...(empty !== undefined && { empty }),
          ...(another !== undefined && { another }),
          ...(label_net_g !== undefined && { label_net_g }),
          ...(isAccepted !== undefined && { accept: isAccepted }),
          ...(test !== undefined && { test }),
          weighing: weighingOf(weighing),
        })
        if (!weighed.ok) return weighed
        const { recorded } = weighed.value
        return accept({ weighed: weighed.value, ...(recorded && { recorded }) })
      })
    },
  }),
  endpoint<DrawRequest>({
    ...common,
    id: 'draw',
    path: '/api/draws',
    summary: 'A print that was made, finished or not, or a length that was fed.',
    body: drawRequest,
    writes: true,
    run: (asked) => {
      const { body } = asked
      const { print, length_mm, reels, printer, firmware, stopped_at, waiting, took_s } = body
      const { started_at } = body
      const { accept: isAccepted, another } = body
      const [first] = reels
      const claims = {
        kind: 'drew',
        reel: plainReel(first?.reel),
        print,
        length_mm: print === undefined ? length_mm : undefined,
        stopped_at,
      }
      return recordOnce(asked, claims, async (handed) =>
        told(
          await recordDraw(handed, {
            ...saidOf(body),
            reels: reels.map(fedOf),
            ...(print !== undefined && { kept: print }),
            ...(length_mm !== undefined && { length_mm }),
            ...(printer !== undefined && { printer }),
            ...(firmware !== undefined && { firmware }),
            ...(stopped_at && { stoppedAt: stopped_at }),
            ...(took_s !== undefined && { took_s }),
            ...(started_at !== undefined && { startedAt: started_at }),
            ...(another !== undefined && { another }),
            ...(isAccepted !== undefined && { accept: isAccepted }),
            ...(waiting !== undefined && { waiting }),
          }),
        ),
      )
    },
  }),
  endpoint<MeasureRequest>({
    ...common,
    id: 'measure',
    path: '/api/measurements',
    summary: 'Something measured of a reel’s filament.',
    body: measureRequest,
    writes: true,
    run: (asked) => {
      const {
        id: _id,
        at: _at,
        by: _by,
        note: _note,
        reel,
        cut,
        accept: isAccepted,
        ...parts
      } = asked.body
      const claims = { kind: 'measured', reel: plainReel(reel), ...parts }
      return recordOnce(asked, claims, async (handed) => {
        const measure = {
          ...parts,
          ...(cut && { cut: { ...cut, weighing: weighingOf(cut.weighing) } }),
        }
        const said = {
          ...saidOf(asked.body),
          ...(isAccepted !== undefined && { accept: isAccepted }),
        }
        return told(await measureReel(handed, reel, measure, said))
      })
    },
  }),
  endpoint<EventRequest>({
    ...common,
    id: 'recordEvent',
    path: '/api/events',
    summary: 'What befell a reel: trimmed, emptied, ran dry, dried, moved, retired.',
    body: eventRequest,
    writes: true,
    run: (asked) => {
      const { reel, event, accept: isAccepted } = asked.body
      return recordOnce(asked, { reel: plainReel(reel), ...event }, async (handed) =>
        told(
          await recordOfReel(handed, reel, event, {
            ...saidOf(asked.body),
            ...(isAccepted !== undefined && { accept: isAccepted }),
          }),
        ),
      )
    },
  }),
  endpoint<SheetRequest>({
    ...common,
    id: 'stateOfMake',
    path: '/api/data-sheets',
    summary: 'What a maker’s sheet states of a make.',
    body: sheetRequest,
    writes: true,
    run: (asked) => {
      const { id: _id, at: _at, by: _by, note: _note, make, ...sheet } = asked.body
      return recordOnce(asked, { kind: 'data-sheet', make, ...sheet }, async (handed) =>
        told(await stateOfMake(handed, make, sheet, saidOf(asked.body))),
      )
    },
  }),
  endpoint<PutRightRequest>({
    ...common,
    id: 'putRight',
    path: '/api/put-rights',
    summary: 'A fact that does not hold, and what holds in its place.',
    body: putRightRequest,
    writes: true,
    run: (asked) => {
      const { by: _by, last_place_g, stopped_at, ...rest } = asked.body
      const input = {
        ...rest,
        ...(last_place_g !== undefined && { lastPlace_g: last_place_g }),
        ...(stopped_at !== undefined && { stoppedAt: stopped_at }),
      }
      const fact = readId(input.fact, idLength.fact)
      const claims = { kind: 'put-right', voids: fact.ok ? fact.value : input.fact }
      return recordOnce(asked, claims, (handed) => putRight(handed, input))
    },
  }),
]
