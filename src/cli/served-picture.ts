import type { PictureServed } from '../http/index.ts'
import { svgOf } from '../picture/index.ts'
import { accept } from '../units/index.ts'
import { findPrint } from './chosen-print.ts'
import { drawingOf, drawnOnTheWay } from './drawing-of.ts'
import { pngInThread } from './png-in-thread.ts'
import { readUpload } from './read-upload.ts'
import { withUploadedPrint } from './with-uploaded-print.ts'

/** Draws the print that was sent, as `--picture` does. */
export const pictureOfUpload: PictureServed = (
  bytes,
  { file, kind, layer, member, ...told },
  now,
) =>
  withUploadedPrint(bytes, async (upload) => {
    const options = { motion: {}, ...told, ...drawnOnTheWay(layer) }
    const input = await readUpload(upload, file, options)
    const print = findPrint(input.print.prints, member)
    if (!print.ok) return print
    const wanted = { now, ...(layer !== undefined && { layer }) }
    const drawing = drawingOf({ file, ...print.value }, wanted)
    if (!drawing.ok) return drawing
    return accept(kind === 'svg' ? svgOf(drawing.value) : await pngInThread(drawing.value))
  })
