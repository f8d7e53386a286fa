// Chances of the whole-shelf estimate against what happens: node benchmarks/shelf-reliability.ts
import { readFileSync, writeFileSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { parseArgs } from 'node:util'
import { Worker } from 'node:worker_threads'
import {
  harderWorlds,
  type ShelfWorld,
  shelfWorlds,
  worldElsewhere,
} from '../test/verdict/shelf-worlds.ts'
import type { BenchCall, BenchOptions, ShelfSimulation } from '../test/verdict/simulated-shelf.ts'
import { describeMachine } from './machine.ts'
import { withSection } from './results-page.ts'
import { type ShelfRun, shelfHeading, shelfReport } from './shelf-report.ts'
import type { SimulationTask } from './simulation-worker.ts'

const usage = `usage: node benchmarks/shelf-reliability.ts [options]
  --benches N    benches in each world, default 80; each is asked about some 500 prints
  --seed N       default 1; two runs with the same seed meet the same benches
  --minutes N    no more portions of 50 benches are begun after this time
  --as-guessed   spreads as the priors have them, none learnt
  --as-they-are  spreads as wide as they are in each world, none learnt: what is left is their shape
  --at-once      surprises are accepted without a look at earlier weighings
  --write        write its section of benchmarks/RESULTS.md`

/** Benches simulated in one go. */
const portion = 50
/** What the generator's state grows by with each draw, and so with each bench. */
const stride = 0x6d2b79f5

/**
 * All worlds, portion by portion, on as many threads as there are processors. Of portions begun before
 * the time is up all worlds are simulated.
 */
const simulated = async (
  worlds: number,
  options: BenchOptions,
): Promise<readonly ShelfSimulation[]> => {
  const tasks: SimulationTask[] = []
  for (let from = 0; from < benches; from += portion) {
    const state = (seed + Math.imul(stride, from)) >>> 0
    for (let world = 0; world < worlds; world++) {
      tasks.push({ world, benches: Math.min(portion, benches - from), seed: state, options })
    }
  }
  const found: ShelfSimulation[] = []
  const until = Date.now() + 60_000 * minutes
  let next = 0
  const thread = async (): Promise<void> => {
    while (next < tasks.length && (next % worlds > 0 || Date.now() < until)) {
      const place = next++
      // A thread simulates one world at a time.
      // oxlint-disable-next-line no-await-in-loop
      found[place] = await inWorker(tasks[place]!)
    }
  }
  await Promise.all(Array.from({ length: availableParallelism() }, thread))
  return Array.from({ length: worlds }, (_, world) =>
    together(found.filter((_one, place) => place % worlds === world)),
  )
}

/** Benches simulated in portions as one simulation. */
const together = (parts: readonly ShelfSimulation[]): ShelfSimulation => {
  const calls: BenchCall[] = []
  const tally = { weighings: 0, flagged: 0, voided: 0 }
  let benches = 0
  for (const part of parts) {
    for (const call of part.calls) calls.push({ ...call, bench: benches + call.bench })
    benches += part.benches
    tally.weighings += part.tally.weighings
    tally.flagged += part.tally.flagged
    tally.voided += part.tally.voided
  }
  return { calls, tally, benches }
}

const kindOf = (world: ShelfWorld): ShelfRun['kind'] =>
  world === worldElsewhere ? 'elsewhere' : harderWorlds.has(world) ? 'harder' : 'meant'

const inWorker = (task: SimulationTask): Promise<ShelfSimulation> =>
  new Promise((done, fail) => {
    const worker = new Worker(new URL('simulation-worker.ts', import.meta.url), {
      workerData: task,
    })
    worker.on('message', done)
    worker.on('error', fail)
  })

const { values } = parseArgs({
  options: {
    benches: { type: 'string', default: '80' },
    seed: { type: 'string', default: '1' },
    minutes: { type: 'string', default: 'Infinity' },
    'as-guessed': { type: 'boolean', default: false },
    'as-they-are': { type: 'boolean', default: false },
    'at-once': { type: 'boolean', default: false },
    write: { type: 'boolean', default: false },
  },
})
const benches = Number(values.benches)
const seed = Number(values.seed)
const minutes = Number(values.minutes)
if (!Number.isInteger(benches) || benches < 1 || !Number.isInteger(seed) || !(minutes > 0)) {
  console.error(usage)
  process.exitCode = 2
} else {
  const learns = !values['as-guessed']
  const knowsSpreads = values['as-they-are']
  const looksBack = !values['at-once']
  const worlds = [...shelfWorlds, worldElsewhere]
  const simulations = await simulated(worlds.length, { learns, looksBack, knowsSpreads })
  const runs = worlds.map((world, place) => ({
    world,
    simulation: simulations[place]!,
    kind: kindOf(world),
  }))
  const command = `node benchmarks/shelf-reliability.ts --benches ${simulations[0]!.benches} --seed ${seed}`
  const given = ['as-guessed', 'as-they-are', 'at-once'] as const
  const options = given.map((name) => (values[name] ? ` --${name}` : '')).join('')
  const section = shelfReport(runs, `${command}${options}`, describeMachine())
  console.log(section)
  if (values.write) {
    const path = 'benchmarks/RESULTS.md'
    writeFileSync(path, withSection(readFileSync(path, 'utf8'), shelfHeading, section))
  }
}
