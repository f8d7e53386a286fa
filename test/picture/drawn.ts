import { readFileSync } from 'node:fs'
import { demoPrints } from '../../demo/prints/index.ts'
import { type Drawing, planDrawing, sideDrawing } from '../../src/picture/index.ts'
import { type PrintReading, type ReadOptions, readPrint } from '../../src/print/index.ts'

const reading = (name: string, options: ReadOptions): PrintReading => {
  const print = demoPrints.find((each) => each.name === name)
  if (print === undefined) throw new Error(`no print ${name}`)
  const outcome = readPrint([new TextEncoder().encode(print.write())], options)
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  return outcome.value
}

const sayLength = (mm: number): string => `${Math.round(mm * 10) / 10} mm`

/** Drawings of the demo prints with everything in them that there is. */
export const drawn: readonly (readonly [name: string, make: () => Drawing])[] = [
  [
    'side-short',
    () =>
      sideDrawing({
        silhouette: reading('two-tool-part', { silhouette: true }).silhouette!,
        fills: [
          { tool: 0, colour: '#c9a227' },
          { tool: 1, colour: null },
        ],
        upTo: 6,
        band: { from: 5, to: 8 },
        dashedAt: [6],
        changeAt: 4.8,
        times: {
          heights: [
            { height_mm: 0.2, reached_s: 600 },
            { height_mm: 4, reached_s: 3000 },
            { height_mm: 10, reached_s: 7150 },
          ],
          start: new Date(2026, 0, 1, 21, 10).getTime(),
        },
        notes: [
          { at: 6, text: 'dry at 6 mm', under: 'at about 22:25', lettering: 'label' },
          { at: 4.8, text: 'change by 4.8 mm', lettering: 'changeWord' },
        ],
        besideNotes: 180,
        width: 640,
        height: 300,
        snug: true,
        title: 'two-tool-part · short < 5 & more',
        wide: '100 mm',
        said: 'The print from the side.',
      }),
  ],
  [
    'side-whole',
    () =>
      sideDrawing({
        silhouette: reading('knob', { silhouette: true }).silhouette!,
        fills: [{ tool: null, colour: null }],
        times: {
          heights: [
            { height_mm: 0.2, reached_s: 300 },
            { height_mm: 12, reached_s: 36_000 },
          ],
        },
        width: 420,
        height: 300,
        wide: '36 mm',
        said: 'The print from the side.',
      }),
  ],
  [
    'plan-two-tools',
    () => {
      const { plan, bead } = reading('two-tool-part', { planOf: 20 })
      return planDrawing({
        plan: plan!,
        bead_mm: bead!.width_mm,
        width: 480,
        height: 360,
        title: 'layer 20',
        sayLength,
        said: 'A layer from above.',
      })
    },
  ],
]

/** A picture as it is committed beside the tests. */
export const committed = (name: string): string =>
  readFileSync(new URL(`${name}.svg`, import.meta.url), 'utf8')
