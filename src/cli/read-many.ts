import { stat } from 'node:fs/promises'
import type { ReadOptions } from '../print/index.ts'
import { cancelling } from './cancelling.ts'
import { exitCode, Fault } from './fault.ts'
import type { FileAsked } from './files-asked.ts'
import { Progress } from './progress.ts'
import { type Input, readInput } from './read-input.ts'
import { ReadingPool } from './reading-pool.ts'

/** So much is read sooner than threads have begun, bytes. */
const threadsFrom = 4 * 2 ** 20
/** How often progress is looked at, ms. */
const lookEvery = 100

/**
 * Reads files at once, as many as there are processors. One that can not be read does not keep the
 * others from being read. Ctrl-C cancels.
 *
 * @param digest - what is kept of a print; called as each is read, in no order
 * @returns in the order asked for what is kept, or the fault
 * @throws Fault: cancelled; and what `digest` throws that is not about the print
 */
export const readMany = <T>(
  asked: readonly FileAsked[],
  options: ReadOptions,
  digest: (input: Input) => T,
): Promise<readonly (T | Fault)[]> =>
  cancelling(async (signal) => {
    const sizes = await Promise.all(asked.map(sizeOf))
    const work = new Work(asked, sizes)
    const pool = new ReadingPool(options, undefined, asked.length)
    const inThreads = work.ofBytes > threadsFrom
    const read = (file: string): Promise<Input> =>
      inThreads && file !== '-'
        ? pool.read(file)
        : readInput(file, options, { at: () => undefined })
    const one = async (each: FileAsked, place: number): Promise<T | Fault> => {
      if (each instanceof Fault) return each
      try {
        if (signal.aborted) throw work.cancelled()
        const kept = digest(await read(each))
        work.done(place)
        return kept
      } catch (error) {
        if (!(error instanceof Fault) || error.exit !== exitCode.unreadable) throw error
        work.done(place)
        return error
      }
    }
    const looking = setInterval(() => work.show(pool), lookEvery)
    signal.addEventListener('abort', () => void pool.end())
    try {
      if (inThreads) return await Promise.all(asked.map(one))
      const results: (T | Fault)[] = []
      for (const [place, each] of asked.entries()) {
        // oxlint-disable-next-line no-await-in-loop -- small files, in this one thread
        results.push(await one(each, place))
      }
      return results
    } catch (error) {
      throw signal.aborted ? work.cancelled() : error
    } finally {
      clearInterval(looking)
      work.end()
      await pool.end()
    }
  })

const sizeOf = async (asked: FileAsked): Promise<number> => {
  if (asked instanceof Fault || asked === '-') return 0
  return stat(asked).then(
    (found) => (found.isFile() ? found.size : 0),
    () => 0,
  )
}

/** How far all of it is. */
class Work {
  readonly ofBytes: number
  readonly #asked: readonly FileAsked[]
  readonly #sizes: readonly number[]
  readonly #progress = new Progress(process.stderr)
  #files = 0
  #bytes = 0

  constructor(asked: readonly FileAsked[], sizes: readonly number[]) {
    this.#asked = asked
    this.#sizes = sizes
    this.ofBytes = sizes.reduce((sum, size) => sum + size, 0)
  }

  done(place: number): void {
    this.#files++
    this.#bytes += this.#sizes[place]!
  }

  show(pool: ReadingPool): void {
    this.#progress.many({
      files: this.#files,
      ofFiles: this.#asked.length,
      bytes: this.#bytes + pool.underWay,
      ofBytes: this.ofBytes,
      name: pool.current ?? '',
    })
  }

  cancelled(): Fault {
    return new Fault(exitCode.cancelled, {
      code: 'cancelled',
      message: `Cancelled when ${this.#files} of ${this.#asked.length} files were read.`,
    })
  }

  end(): void {
    this.#progress.end()
  }
}
