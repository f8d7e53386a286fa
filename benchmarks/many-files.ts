import { join } from 'node:path'
import { bigFile } from './big-file.ts'
import { median } from './median.ts'
import { timed } from './timed.ts'

/** One file given many times to the command line, in turn with md5sum over the same; medians. */
export interface ManyFiles {
  /** How often it is given. */
  readonly files: number
  /** Of the file. */
  readonly bytes: number
  readonly read_s: number
  readonly md5sum_s: number
  /** Speed over md5sum's in the same round. */
  readonly ratio: number
}

/** Lets `reelreckon read` go through one file many times, hashes and times included, in fresh processes. */
export function measureManyFiles(
  folder: string,
  files: number,
  bytes: number,
  rounds: number,
): ManyFiles {
  const paths = Array<string>(files).fill(bigFile(folder, bytes).path)
  const main = join('dist', 'bundle', 'main.js')
  const reads: number[] = []
  const sums: number[] = []
  for (let round = 0; round < rounds; round += 1) {
    reads.push(timed([process.execPath, main, 'read', '--json', ...paths]).wall_s)
    sums.push(timed(['md5sum', ...paths]).wall_s)
  }
  return {
    files,
    bytes,
    read_s: median(reads),
    md5sum_s: median(sums),
    ratio: median(sums.map((wall, round) => wall / reads[round]!)),
  }
}
