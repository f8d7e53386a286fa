// Chances of the whole-shelf estimate against what happens: node benchmarks/shelf-reliability.ts
import { readFileSync, writeFileSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { parseArgs } from 'node:util'
import { Worker } from 'node:worker_threads'
import { shelfWorlds, worldElsewhere } from '../test/verdict/shelf-worlds.ts'
import type { BenchCall, BenchOptions, ShelfSimulation } from '../test/verdict/simulated-shelf.ts'
import { describeMachine } from './machine.ts'
import { withSection } from './results-page.ts'
import { shelfHeading, shelfReport } from './shelf-report.ts'
import type { SimulationTask } from './simulation-worker.ts'

const usage = `usage: node benchmarks/shelf-reliability.ts [options]
  --cases N      prints asked about in each world, 1000 or more, default 20000
  --seed N       default 1
  --minutes N    no more portions of 25000 prints are begun after this time
  --as-guessed   spreads as the priors have them, none learnt
  --at-once      surprises are accepted without a look at earlier weighings
  --write        write its section of benchmarks/RESULTS.md`

/** Prints asked about in one go. */
const portion = 25_000
/** Draws of the generator from the start of one portion to that of the next: more than any needs. */
const apart = 2 ** 25
/** What the generator's state grows by with each draw. */
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
  for (let from = 0, place = 0; from < cases; from += portion, place++) {
    const state = (seed + Math.imul(stride, place * apart)) >>> 0
    for (let world = 0; world < worlds; world++) {
      tasks.push({ world, cases: Math.min(portion, cases - from), seed: state, options })
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
    cases: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
    minutes: { type: 'string', default: 'Infinity' },
    'as-guessed': { type: 'boolean', default: false },
    'at-once': { type: 'boolean', default: false },
    write: { type: 'boolean', default: false },
  },
})
const cases = Number(values.cases)
const seed = Number(values.seed)
const minutes = Number(values.minutes)
if (!Number.isInteger(cases) || cases < 1000 || !Number.isInteger(seed) || !(minutes > 0)) {
  console.error(usage)
  process.exitCode = 2
} else {
  const learns = !values['as-guessed']
  const looksBack = !values['at-once']
  const worlds = [...shelfWorlds, worldElsewhere]
  const simulations = await simulated(worlds.length, { learns, looksBack })
  const runs = worlds.map((world, place) => ({
    world,
    simulation: simulations[place]!,
    elsewhere: world === worldElsewhere,
  }))
  const done = Math.min(
    cases,
    portion * Math.floor(simulations[0]!.calls.length / portion) || cases,
  )
  const command = `node benchmarks/shelf-reliability.ts --cases ${done} --seed ${seed}`
  const options = `${learns ? '' : ' --as-guessed'}${looksBack ? '' : ' --at-once'}`
  const section = shelfReport(runs, `${command}${options}`, describeMachine())
  console.log(section)
  if (values.write) {
    const path = 'benchmarks/RESULTS.md'
    writeFileSync(path, withSection(readFileSync(path, 'utf8'), shelfHeading, section))
  }
}
