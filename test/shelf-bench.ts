import type { PrintRowJson } from '../src/contract/index.ts'
import { printRowOf } from '../src/ledger/index.ts'
import { readPrint } from '../src/print/index.ts'
import type { HandedIn, ReelsAdded } from '../src/service/index.ts'
import { addReel } from '../src/service/index.ts'
import { openMemoryStore, type Store } from '../src/store/index.ts'
import type { Outcome } from '../src/units/index.ts'

/** The value, or a failure of the test that says why there is none. */
export const valueOf = <T>(outcome: Outcome<T>): T => {
  if (outcome.ok) return outcome.value
  throw new Error(`${outcome.refusal.code}: ${outcome.refusal.message}`)
}

/** The code of a refusal; '' where there is none. */
export const codeOf = (outcome: Outcome<unknown>): string =>
  outcome.ok ? '' : outcome.refusal.code

export const noon: number = Date.UTC(2026, 2, 1, 12)

/** A ledger in memory whose clock goes on by a minute each time it is read, and whose chance is even. */
export const bench = async (): Promise<HandedIn> => {
  const store = valueOf(await openMemoryStore())
  let now = noon
  let state = 1
  return {
    store,
    now: () => (now += 60_000),
    // Park and Miller's minimal generator, its high bits.
    randomByte: () => {
      state = (state * 48_271) % 2_147_483_647
      return Math.floor(state / 8_388_608) % 256
    },
  }
}

/** A bench at which somebody else does something just before the first append. */
export const interrupted = (handed: HandedIn, meanwhile: () => Promise<unknown>): HandedIn => {
  let isDone = false
  const append: Store['append'] = async (records, guard) => {
    if (!isDone) {
      isDone = true
      await meanwhile()
    }
    return handed.store.append(records, guard)
  }
  return { ...handed, store: { ...handed.store, append } }
}

/** A reel of Kittiwake PLA, 1 kg on the label. */
export const addKittiwake = async (
  handed: HandedIn,
  more: Partial<Parameters<typeof addReel>[1]> = {},
): Promise<ReelsAdded> =>
  valueOf(
    await addReel(handed, {
      make: { name: 'Kittiwake PLA', maker: 'Kittiwake', material: 'PLA' },
      label_net_g: 1000,
      ...more,
    }),
  )

/** A print of three layers that draws 100, 200 and 300 mm by the end of each, from each tool. */
export const smallPrint = (tools: readonly number[] = [0], move_mm = 50): PrintRowJson => {
  const layer = (z: number): string =>
    [
      `G1 Z${z} F600`,
      ...tools.flatMap((tool) => [`T${tool}`, `G1 X50 Y10 E${move_mm}`, `G1 X0 Y0 E${move_mm}`]),
    ].join('\n')
  const text = `M83\nG28\n${[0.2, 0.4, 0.6].map(layer).join('\n')}\n`
  const read = valueOf(readPrint([new TextEncoder().encode(text)]))
  return printRowOf(read, {
    id: 'ab'.repeat(32),
    file: 'small.gcode',
    bytes: text.length,
    changed_at: '2026-03-01T12:00:00.000Z',
  })
}
