import { spawnSync } from 'node:child_process'

/** One run of a program in a fresh process, start-up included. */
export interface Timed {
  readonly wall_s: number
  /** User and system time of the process and its threads. */
  readonly cpu_s: number
  /** Standard output. */
  readonly output: string
}

const timing = /(\d+\.\d+) (\d+\.\d+) (\d+\.\d+)\s*$/

/**
 * Runs a program and measures it from outside with the shell's own `time`.
 *
 * The shell between matters for memory too: a process started straight from a large one begins
 * with that one's peak on its account, and this program is large.
 *
 * @throws Error when the program fails or is not here
 */
export function timed(command: readonly string[]): Timed {
  const { status, stdout, stderr } = spawnSync(
    'bash',
    ['-c', 'TIMEFORMAT="%3R %3U %3S"; time "$@"', 'bash', ...command],
    { encoding: 'utf8', env: { ...process.env, LC_ALL: 'C' } },
  )
  const [, wall, user, system] = timing.exec(stderr ?? '') ?? []
  if (status !== 0 || wall === undefined) {
    throw new Error(`${command[0]} failed: ${stderr?.trim() || 'bash is not here'}`)
  }
  return { wall_s: Number(wall), cpu_s: Number(user) + Number(system), output: stdout }
}
