import { createWriteStream } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import type { ReadableStream as NodeStream } from 'node:stream/web'
import type { ReadingServed } from '../http/index.ts'
import { nominalFilament } from '../service/index.ts'
import { accept, gramsPerCubicCentimetre, measured, millimetres, refuse } from '../units/index.ts'
import { Fault } from './fault.ts'
import { printRowOfInput } from './print-row-of-input.ts'
import { readToJson } from './read-to-json.ts'
import { ReadingPool } from './reading-pool.ts'

/** So many are taken in and read at once: each takes a thread, and room on the disk. */
const mostAtOnce = 4

let underWay = 0

/** Reads what was sent in a thread of its own, from a folder that is cleared away. */
export const readingOfUpload: ReadingServed = async (
  bytes,
  { file, material, density_g_per_cm3: density, ...told },
  now,
) => {
  const filament = nominalFilament({
    ...(material !== undefined && { material }),
    ...(density !== undefined && { density: measured(gramsPerCubicCentimetre(density)) }),
    ...(told.diameter_mm !== undefined && { diameter: measured(millimetres(told.diameter_mm)) }),
  })
  if (!filament.ok) return filament
  if (underWay >= mostAtOnce) {
    return refuse({
      code: 'busy',
      message: `${mostAtOnce} prints are being read already. Send it again in a moment.`,
    })
  }
  underWay++
  const folder = await mkdtemp(join(tmpdir(), 'reelreckon-read-'))
  const pool = new ReadingPool({ motion: {}, ...told }, 1)
  try {
    const kept = join(folder, 'print')
    await pipeline(
      Readable.fromWeb(bytes as unknown as NodeStream),
      createWriteStream(kept, { mode: 0o600 }),
    )
    const input = { ...(await pool.read(kept)), file }
    const prints = input.print.prints.map((print) => readToJson(input, print, filament.value))
    const [only, ...more] = prints
    return accept({
      told: only !== undefined && more.length === 0 ? only : { prints, errors: [] },
      rows: input.print.prints.map((print) => printRowOfInput(input, print, now)),
    })
  } catch (error) {
    if (!(error instanceof Fault)) throw error
    const { code, message, line } = error.error
    return refuse({ code, message, ...(line !== null && { line }) })
  } finally {
    underWay--
    await pool.end()
    await rm(folder, { recursive: true, force: true })
  }
}
