import { extname } from 'node:path'
import { type Drawing, pixelsOf, svgOf } from '../picture/index.ts'
import type { PrintOfFile } from '../print/index.ts'
import { cancelling } from './cancelling.ts'
import { drawingOf } from './drawing-of.ts'
import { usageFault } from './fault.ts'
import type { ReelsJudged } from './judged.ts'
import { taken } from './taken.ts'
import { harmless } from './terminal.ts'
import { isThere, targetExists, writeWhole } from './write-whole.ts'

/** What was typed of a picture. */
export interface PictureText {
  readonly picture?: string
  readonly layer?: string
  readonly overwrite?: boolean
}

/** A picture that is wanted. */
export interface PictureAsked {
  readonly file: string
  readonly kind: 'svg' | 'png'
  /** 1-based, where it is of one layer. */
  readonly layer?: number
  readonly overwrite: boolean
}

/** The picture from what was typed, if any. @throws Fault of wrong usage, `target_exists` */
export const pictureAsked = async ({
  picture: file,
  layer,
  overwrite = false,
}: PictureText): Promise<PictureAsked | undefined> => {
  if (file === undefined) {
    const option = layer !== undefined ? '--layer' : overwrite ? '--overwrite' : undefined
    if (option === undefined) return undefined
    throw usageFault(
      'needs_a_picture',
      `${option} is about a picture: say where with --picture FILE.`,
      option,
    )
  }
  const kind = extname(file).toLowerCase().slice(1)
  if (kind !== 'svg' && kind !== 'png') {
    throw usageFault(
      'picture_kind_unknown',
      `--picture: "${file}" ends in neither .svg nor .png, which say what kind of picture it is to be.`,
      '--picture',
    )
  }
  if (layer !== undefined && !/^[1-9]\d{0,5}$/.test(layer.trim())) {
    throw usageFault(
      'layer_malformed',
      `--layer: "${layer}" is no layer. The first is 1.`,
      '--layer',
    )
  }
  if (!overwrite && (await isThere(file))) throw targetExists(file)
  return { file, kind, overwrite, ...(layer !== undefined && { layer: Number(layer) }) }
}

/** Writes the picture of a print. @param judged - to show where its reel ends, if it is judged */
export const writePicture = async (
  { file, kind, overwrite, layer }: PictureAsked,
  print: { readonly file: string } & PrintOfFile,
  judged?: ReelsJudged,
): Promise<void> => {
  const wanted = {
    now: Date.now(),
    ...(layer !== undefined && { layer }),
    ...(judged && { judged }),
  }
  const drawing = taken(drawingOf(print, wanted), layer === undefined ? '--picture' : '--layer')
  const bytes = kind === 'svg' ? svgOf(drawing) : await asPng(drawing)
  await cancelling((signal) => writeWhole(file, [bytes], overwrite, signal))
}

const asPng = async (drawing: Drawing): Promise<Uint8Array> => {
  const { pngOf } = await import('./png-of.ts')
  return pngOf(pixelsOf(drawing))
}

/** Says where a picture is, below a sheet. */
export const drawnIn = (picture: PictureAsked | undefined): string =>
  picture === undefined ? '' : `\n  Drawn in ${harmless(picture.file)}.\n`
