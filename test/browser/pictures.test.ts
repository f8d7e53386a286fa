import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { pngOf } from '../../src/cli/png-of.ts'
import { type Drawing, type Pixels, pixelsOf, svgOf } from '../../src/picture/index.ts'
import { drawn } from '../picture/drawn.ts'
import { launch } from './in-browser.ts'

// The browser knows both formats by itself: it says what a PNG of ours holds, and how an SVG looks.

let browser: Browser
let page: Page
beforeAll(async () => {
  browser = await launch()
  page = await browser.newPage()
})
afterAll(() => browser.close())

/** What the browser sees in a picture of ours, as large as it is or as asked. */
const seen = async (
  type: string,
  bytes: Uint8Array,
  size?: { readonly width: number; readonly height: number },
): Promise<Pixels> => {
  const address = `data:${type};base64,${Buffer.from(bytes).toString('base64')}`
  const found = await page.evaluate(
    async ([source, wanted]) => {
      const image = new Image()
      image.src = source
      await image.decode()
      const { width, height } = wanted ?? { width: image.naturalWidth, height: image.naturalHeight }
      const canvas = document.createElement('canvas')
      canvas.width = width
      canvas.height = height
      const context = canvas.getContext('2d')!
      context.drawImage(image, 0, 0, width, height)
      const { data } = context.getImageData(0, 0, width, height)
      let rgb = ''
      for (let at = 0; at < data.length; at += 4) {
        rgb += String.fromCodePoint(data[at]!, data[at + 1]!, data[at + 2]!)
      }
      return { width, height, rgb: btoa(rgb) }
    },
    [address, size] as const,
  )
  return { ...found, rgb: new Uint8Array(Buffer.from(found.rgb, 'base64')) }
}

describe.each(drawn)('%s', (_, make) => {
  test('the PNG holds what was drawn, bit by bit', async () => {
    const pixels = pixelsOf(make(), 1)
    expect(await seen('image/png', pngOf(pixels))).toEqual(pixels)
  })

  test('the PNG looks as the SVG does, but for the letters', async () => {
    const whole = make()
    const drawing: Drawing = {
      ...whole,
      shapes: whole.shapes.filter(({ kind }) => kind === 'path'),
    }
    const pixels = pixelsOf(drawing, 1)
    const { rgb } = await seen('image/svg+xml', new TextEncoder().encode(svgOf(drawing)), pixels)
    let off = 0
    for (const [k, each] of rgb.entries()) off += Math.abs(each - pixels.rgb[k]!)
    // Of 255, over all of the sheet: edges are smoothed otherwise.
    expect(off / rgb.length).toBeLessThan(6)
    let ink = 0
    for (const each of pixels.rgb) ink += Math.abs(each - 0xf0)
    expect(off).toBeLessThan(ink / 3)
  })
})

test('a picture of many colours needs no palette', async () => {
  const rgb = Uint8Array.from({ length: 3 * 40 * 30 }, (_, k) => (k * k * 7) % 256)
  const pixels = { width: 40, height: 30, rgb }
  expect(await seen('image/png', pngOf(pixels))).toEqual(pixels)
})
