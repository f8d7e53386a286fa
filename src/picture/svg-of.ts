import { type Drawing, hatched, type PathShape, type TextShape } from './drawing.ts'
import { type Ground, hatching, inks, letterings, paperAndInk } from './look.ts'

const marks: ReadonlyMap<string, string> = new Map([
  ['&', '&amp;'],
  ['<', '&lt;'],
  ['>', '&gt;'],
])

const escaped = (text: string): string => text.replaceAll(/[&<>]/g, (mark) => marks.get(mark)!)

/** To a hundredth of a pixel. */
const fine = (px: number): number => Math.round(px * 100) / 100

/** A drawing as an SVG file that needs nothing else. */
export const svgOf = (drawing: Drawing, ground: Ground = paperAndInk): string => {
  const { width, height, said, shapes } = drawing
  const [w, h] = [fine(width), fine(height)]
  const clips = new Map<string, string>()
  const clipOf = ({ between }: PathShape): string => {
    if (between === undefined) return ''
    const rect = `<rect x="0" y="${fine(between.top)}" width="${w}" height="${fine(Math.max(between.bottom - between.top, 0))}"/>`
    const id = clips.get(rect) ?? `between-${clips.size + 1}`
    clips.set(rect, id)
    return ` clip-path="url(#${id})"`
  }
  const body = shapes.map((shape) =>
    shape.kind === 'text' ? textOf(shape) : clipped(pathOf(shape), clipOf(shape)),
  )
  const defs = [
    `<pattern id="${hatched}" width="${hatching.apart}" height="${hatching.apart}" patternUnits="userSpaceOnUse"><path d="M-1 ${hatching.apart + 1}L${hatching.apart + 1} -1" stroke="${ground.ink}" stroke-opacity="${hatching.opacity}"/></pattern>`,
    ...[...clips].map(([rect, id]) => `<clipPath id="${id}">${rect}</clipPath>`),
  ]
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${h}" viewBox="0 0 ${w} ${h}" role="img" aria-labelledby="said">
<title id="said">${escaped(said)}</title>
<style>
path{fill:none;stroke-linejoin:round;stroke-linecap:butt}
text{font-family:"Liberation Sans Narrow","Arial Narrow",sans-serif;font-variant-numeric:tabular-nums}
${styleOf(ground)}
</style>
<defs>
${defs.join('\n')}
</defs>
<rect width="${w}" height="${h}" fill="${ground.paper}"/>
${body.join('\n')}
</svg>
`
}

const styleOf = (ground: Ground): string => {
  const ofInks = Object.entries(inks).flatMap(([ink, look]) => {
    const { stroke, width, dash, fill, opacity } = look
    const rules = [
      ...(fill === undefined ? [] : [`fill:${ground[fill]}`]),
      ...(opacity === undefined ? [] : [`fill-opacity:${opacity}`]),
      ...(stroke === undefined ? [] : [`stroke:${ground[stroke]}`]),
      ...(width === undefined ? [] : [`stroke-width:${width}`]),
      ...(dash === undefined ? [] : [`stroke-dasharray:${dash.join(' ')}`]),
    ]
    if (ink.startsWith('bead')) rules.push('stroke-linecap:round')
    return rules.length === 0 ? [] : [`.${ink}{${rules.join(';')}}`]
  })
  const ofLetters = Object.entries(letterings).map(
    ([lettering, { colour, size }]) => `.${lettering}{fill:${ground[colour]};font-size:${size}px}`,
  )
  return [...ofInks, ...ofLetters].join('\n')
}

const pathOf = ({ ink, d, fill, width }: PathShape): string => {
  const line = d.replaceAll(/\d+\.\d{3,}/g, (px) => `${fine(Number(px))}`)
  const filled =
    fill === undefined ? '' : ` style="fill:${fill === hatched ? `url(#${hatched})` : fill}"`
  const wide = width === undefined ? '' : ` style="stroke-width:${fine(width)}"`
  return `<path class="${ink}" d="${line}"${filled}${wide}/>`
}

const clipped = (path: string, clip: string): string =>
  clip === '' ? path : path.replace('<path', `<path${clip}`)

const textOf = ({ lettering, x, y, text, anchor }: TextShape): string =>
  `<text class="${lettering}" x="${fine(x)}" y="${fine(y)}"${anchor === 'start' ? '' : ` text-anchor="${anchor}"`}>${escaped(text)}</text>`
