import type { PictureAsked, PictureServed } from '../http/index.ts'
import { svgOf } from '../picture/index.ts'
import type { ReadOptions } from '../print/index.ts'
import { accept } from '../units/index.ts'
import { findPrint } from './chosen-print.ts'
import { drawingOf, drawnOnTheWay } from './drawing-of.ts'
import { judgeReach } from './judge-reach.ts'
import { pngInThread } from './png-in-thread.ts'
import { readUpload } from './read-upload.ts'
import { shelfPrinter } from './shelf-printer.ts'
import { drawnOfPrint } from './what-is-drawn.ts'
import { withUploadedPrint } from './with-uploaded-print.ts'

/** Draws the print that was sent, as `--picture` does. */
export const pictureOfUpload: PictureServed = (
  bytes,
  { file, kind, layer, member, reach, ...told },
  now,
) =>
  withUploadedPrint(bytes, async (upload) => {
    const input = await readUpload(upload, file, {
      ...asPrinted(reach),
      ...told,
      ...drawnOnTheWay(layer),
    })
    const print = findPrint(input.print.prints, member)
    if (!print.ok) return print
    const judged = reach && judgeReach(drawnOfPrint(input, print.value, reach.stretch), reach, now)
    if (judged?.ok === false) return judged
    const drawing = drawingOf(
      { file, ...print.value },
      { now, ...(layer !== undefined && { layer }), ...(judged && { judged: judged.value }) },
    )
    if (!drawing.ok) return drawing
    return accept(kind === 'svg' ? svgOf(drawing.value) : await pngInThread(drawing.value))
  })

/** How the printer of a check reads and moves; of a print alone nothing is known of it. */
const asPrinted = (reach: PictureAsked['reach']): Pick<ReadOptions, 'motion' | 'firmware'> => {
  if (reach === undefined) return { motion: {} }
  const { view, printer, reels } = reach
  // Where nothing is of the shelf it is not asked, as in a check.
  if (printer === undefined && !reels.some((one) => 'reel' in one)) return { motion: {} }
  const { motion, firmware } = shelfPrinter(view, printer === undefined ? {} : { printer })
  return { motion, ...(firmware !== undefined && { firmware }) }
}
