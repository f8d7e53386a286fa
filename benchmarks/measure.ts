import { rmSync } from 'node:fs'
import { type BigFile, bigFile } from './big-file.ts'
import { type Contestant, contestants, type ReaderOutput, yardstick } from './contestants.ts'
import { median } from './median.ts'
import { peakMemory } from './peak-memory.ts'
import { timed } from './timed.ts'

/** What one contestant took; medians over the rounds. */
export interface Speed {
  readonly name: string
  readonly does: string
  readonly wall_s: number
  readonly slowest_s: number
  readonly cpu_s: number
  readonly MBps: number
  /** Speed over the yardstick's in the same round. */
  readonly ratio: number
  /** What the ratio is to reach; null where nothing is asked. */
  readonly aim: number | null
  readonly peakMemory_kB: number | null
  /** What it printed last. */
  readonly output: string
}

/** Peak memory of this reader at one file size, and how long it takes. */
export interface MemoryAt {
  readonly bytes: number
  readonly wall_s: number
  readonly peakMemory_kB: number
}

/** Two commands started in turn; medians over the rounds. */
export interface StartUp {
  readonly help_s: number
  readonly nothing_s: number
  readonly ratio: number
}

/** Generated files up to this size are kept for the next run, bytes. */
const stays = 2e8

const run = (
  contestant: Contestant,
  file: BigFile,
): { wall_s: number; cpu_s: number; output: string } => {
  const result = timed([...contestant.command, file.path])
  const complaint = contestant.complaint(result.output, file)
  if (complaint !== null) throw new Error(`${contestant.name} is wrong: ${complaint}`)
  return result
}

/**
 * Lets every contestant go through the file in each round, in fresh processes, in an order that
 * moves on by one from round to round. Outputs are checked every time.
 *
 * @param names - of those that take part
 * @throws Error when an output is wrong
 */
export async function measureSpeeds(
  folder: string,
  bytes: number,
  rounds: number,
  names: readonly string[] = contestants.map(({ name }) => name),
): Promise<readonly Speed[]> {
  const file = bigFile(folder, bytes)
  const taking = contestants.filter(({ name }) => names.includes(name))
  const entries = taking.map((contestant) => ({
    contestant,
    walls: [] as number[],
    cpus: [] as number[],
    output: '',
  }))
  for (let round = 0; round < rounds; round += 1) {
    for (let place = 0; place < entries.length; place += 1) {
      const entry = entries[(place + round) % entries.length]!
      const { wall_s, cpu_s, output } = run(entry.contestant, file)
      entry.walls.push(wall_s)
      entry.cpus.push(cpu_s)
      entry.output = output
    }
  }
  const measure = entries.find(({ contestant }) => contestant.name === yardstick)!
  // One after another would be as good: the two that are watched take next to no memory.
  const peaks = await Promise.all(
    entries.map(({ contestant, output }) => memoryOf(contestant, file, output)),
  )
  return entries.map(({ contestant, walls, cpus, output }, at) => {
    const wall_s = median(walls)
    return {
      name: contestant.name,
      does: contestant.does,
      wall_s,
      slowest_s: Math.max(...walls),
      cpu_s: median(cpus),
      MBps: bytes / 1e6 / wall_s,
      ratio: median(walls.map((wall, round) => measure.walls[round]! / wall)),
      aim: contestant.aim ?? null,
      peakMemory_kB: peaks[at] ?? null,
      output: output.trim().replace(file.path, 'FILE'),
    }
  })
}

const memoryOf = async (
  { command: [program = '', ...words] }: Contestant,
  file: BigFile,
  output: string,
): Promise<number | null> => {
  if (output.startsWith('{')) return (JSON.parse(output) as ReaderOutput).peakMemory_kB
  return peakMemory(program, [...words, file.path])
}

/** Peak memory and time of this reader, median of three runs at each size. A large file does not stay. */
export function measureMemory(folder: string, sizes: readonly number[]): readonly MemoryAt[] {
  const [reader] = contestants
  return sizes.map((bytes) => {
    const file = bigFile(folder, bytes)
    const runs = [0, 1, 2].map(() => {
      const { wall_s, output } = run(reader!, file)
      const { peakMemory_kB }: ReaderOutput = JSON.parse(output)
      return { wall_s, peakMemory_kB }
    })
    if (bytes > stays) rmSync(file.path)
    return {
      bytes,
      wall_s: median(runs.map(({ wall_s }) => wall_s)),
      peakMemory_kB: median(runs.map(({ peakMemory_kB }) => peakMemory_kB)),
    }
  })
}

/**
 * Start-up of the command line against a Node that does nothing.
 *
 * @returns null when the command line does not print its help yet
 */
export function measureStartUp(rounds: number): StartUp | null {
  const help = [process.execPath, 'dist/bundle/main.js', '--help']
  const nothing = [process.execPath, '-e', '0']
  const helps: number[] = []
  const nothings: number[] = []
  for (let round = 0; round < rounds; round += 1) {
    nothings.push(timed(nothing).wall_s)
    const { wall_s, output } = timed(help)
    if (!output.includes('reelreckon')) return null
    helps.push(wall_s)
  }
  const help_s = median(helps)
  const nothing_s = median(nothings)
  return { help_s, nothing_s, ratio: median(helps.map((wall, k) => wall / nothings[k]!)) }
}
