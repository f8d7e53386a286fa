// Simulates one world for benchmarks/shelf-reliability.ts, on a thread of its own.
import { parentPort, workerData } from 'node:worker_threads'
import { shelfWorlds, worldElsewhere } from '../test/verdict/shelf-worlds.ts'
import { type BenchOptions, simulateShelves } from '../test/verdict/simulated-shelf.ts'

/** What to simulate. */
export interface SimulationTask {
  /** Place of the world; after all others comes the one elsewhere. */
  readonly world: number
  readonly benches: number
  readonly seed: number
  readonly options: BenchOptions
}

const { world, benches, seed, options } = workerData as SimulationTask
const found = simulateShelves(shelfWorlds[world] ?? worldElsewhere, benches, seed, options)
// oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has no origin
parentPort?.postMessage(found)
