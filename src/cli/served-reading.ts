import type { ReadingServed } from '../http/index.ts'
import { nominalFilament } from '../service/index.ts'
import { accept, gramsPerCubicCentimetre, measured, millimetres } from '../units/index.ts'
import { printRowOfInput } from './print-row-of-input.ts'
import { readToJson } from './read-to-json.ts'
import { readUpload } from './read-upload.ts'
import { withUploadedPrint } from './with-uploaded-print.ts'

/** Reads what was sent, and tells it as `read --json` does. */
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
  return withUploadedPrint(bytes, async (upload) => {
    const input = await readUpload(upload, file, { motion: {}, ...told })
    const prints = input.print.prints.map((print) => readToJson(input, print, filament.value))
    const [only, ...more] = prints
    return accept({
      told: only !== undefined && more.length === 0 ? only : { prints, errors: [] },
      rows: input.print.prints.map((print) => printRowOfInput(input, print, now)),
    })
  })
}
