import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { readFileSync } from 'node:fs'

/**
 * Peak resident memory of a program that can not tell its own, watched through /proc every
 * millisecond.
 *
 * @returns kB; null where there is no /proc, or the program was gone before it was seen
 */
export async function peakMemory(
  program: string,
  words: readonly string[],
): Promise<number | null> {
  const child = spawn(program, words, { stdio: 'ignore' })
  let peak: number | null = null
  const watch = setInterval(() => {
    const now = highWater(child.pid, program)
    if (now !== null) peak = Math.max(peak ?? 0, now)
  }, 1)
  await once(child, 'exit').finally(() => clearInterval(watch))
  return peak
}

/** Before the program replaces this process's copy, the name and the memory are this process's. */
function highWater(pid: number | undefined, program: string): number | null {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8')
    if (/^Name:\s*(\S+)/m.exec(status)?.[1] !== program) return null
    return Number(/^VmHWM:\s*(\d+) kB/m.exec(status)?.[1] ?? Number.NaN) || null
  } catch {
    return null
  }
}
