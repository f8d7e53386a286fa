import { describe, expect, it } from 'vitest'
import { normalCdf, normalDensity, type ReelBelief } from '../../src/estimate/index.ts'
import type { DrawCurve, Layers } from '../../src/print/index.ts'
import { grams, measured } from '../../src/units/index.ts'
import {
  callOf,
  chanceAt,
  type DrawAlternative,
  drawOfReading,
  judge,
  judgePrint,
  marginModel,
  nextMeasures,
  unknownPrinter,
} from '../../src/verdict/index.ts'
import { beliefOf, believe, exactPrinter, pla, reelOf, weighing } from './bench-reels.ts'

/** A print of equal layers 0.2 mm high, a row at each layer end and one half-way. */
const steadyPrint = (count: number, perLayer_mm: number) => {
  const rows = Array.from({ length: 2 * count }, (_, i) => (i + 1) / 2)
  const curve: DrawCurve = {
    draw_mm: Float64Array.from(rows, (row) => row * perLayer_mm),
    height_mm: Float64Array.from(rows, (row) => 0.2 * Math.ceil(row)),
    layer: Int32Array.from(rows, (row) => Math.ceil(row)),
    byte: Float64Array.from(rows, (row) => 1000 * row),
  }
  const ends = Array.from({ length: count }, (_, i) => i + 1)
  const alternative: DrawAlternative = {
    weight: 1,
    peak_mm: count * perLayer_mm,
    curve,
    layerEnd_mm: Float64Array.from(ends, (end) => end * perLayer_mm),
  }
  const layers: Layers = {
    count,
    passes: 1,
    spiral: false,
    step_mm: 0.2,
    height_mm: Float64Array.from(ends, (end) => 0.2 * end),
    endByte: Float64Array.from(ends, (end) => 1000 * end),
    endLine: Float64Array.from(ends, (end) => 40 * end),
  }
  return { alternative, layers }
}

/** Every third layer end of a steady print. */
const kept = (_: number, row: number): boolean => row % 6 === 5

const sixtyTwoMetres: DrawAlternative = { weight: 1, peak_mm: 62_000 }

describe('62 m of 1.75 mm at 1.24 g/cm³', () => {
  it('needs 184.9 g beside the start allowance', () => {
    const { needed } = judge({
      belief: reelOf(422, 250),
      printer: exactPrinter,
      draw: [sixtyTwoMetres],
    })
    expect(needed.value).toBeCloseTo(184.9, 1)
    expect(needed.u).toBeGreaterThan(1)
  })

  it('is more than a reel of 422 g on a weighed carrier of 250 g holds: short', () => {
    const verdict = judge({ belief: reelOf(422, 250), draw: [sixtyTwoMetres] })
    expect(verdict.verdict).toBe('short')
    expect(verdict.chance).toBeLessThan(0.05)
    expect(verdict.net.value).toBeCloseTo(172, 1)
    expect(verdict.margin.value).toBeLessThan(-10)
    expect(verdict.runDry.likely?.share).toBeGreaterThan(0.85)
  })

  it('is close when the carrier is only guessed', () => {
    const verdict = judge({ belief: reelOf(422), draw: [sixtyTwoMetres] })
    expect(verdict.verdict).toBe('close')
    expect(verdict.net.u).toBeGreaterThan(50)
  })

  it('is enough on a full reel', () => {
    const verdict = judge({ belief: reelOf(1250, 250), draw: [sixtyTwoMetres] })
    expect(verdict.verdict).toBe('enough')
    expect(verdict.runDry).toEqual({ early: null, likely: null, late: null })
    expect(verdict.leftOver.value).toBeGreaterThan(800)
  })
})

describe('the call', () => {
  it.each([
    [0.95, 0.95, 'enough'],
    [0.9499, 0.95, 'close'],
    [0.0501, 0.95, 'close'],
    [0.05, 0.95, 'short'],
    [0.9, 0.8, 'enough'],
    [0.9, 0.99, 'close'],
    [0, 0.95, 'short'],
    [1, 0.95, 'enough'],
  ] as const)('chance %f at confidence %f is %s', (chance, confidence, expected) => {
    // 1 − 0.95 is a little more than 0.05 in a double, so the lower bound holds too.
    expect(callOf(chance, confidence)).toBe(expected)
  })

  it.each([0.5, 1, 0, Number.NaN, 2])('refuses a confidence of %f', (confidence) => {
    expect(() => judge({ belief: reelOf(422), draw: [sixtyTwoMetres], confidence })).toThrow(
      expect.objectContaining({ code: 'confidence_out_of_range' }),
    )
  })

  it.each([
    [[], 'no_draw'],
    [[{ weight: 0, peak_mm: 1 }], 'weight_not_positive'],
    [[{ weight: 1, peak_mm: -1 }], 'draw_negative'],
    [[{ weight: 1, peak_mm: Number.NaN }], 'draw_negative'],
  ] as const)('refuses a broken draw: %j', (draw, code) => {
    expect(() => judge({ belief: reelOf(422), draw })).toThrow(expect.objectContaining({ code }))
  })
})

/** So many grams of a filament of exactly 3 g/m. */
const reel = (net: number, u: number): ReelBelief => beliefOf(measured(net, u), measured(3))

describe('run-dry interval', () => {
  // 3 g/m and layers of 1 m: one layer takes 3 g.
  const { alternative, layers } = steadyPrint(100, 1000)
  const input = { printer: exactPrinter, draw: [alternative], layers }

  it('stands on the draw curve at the 5, 50 and 95 % points', () => {
    const { runDry } = judge({ ...input, belief: reel(150, 6) })
    // 150 g last 50 m; 1.645 standard deviations of 2 m to either side.
    expect(runDry.early?.draw_mm).toBeCloseTo(50_000 - 1.644854 * 2000, 0)
    expect(runDry.likely?.draw_mm).toBeCloseTo(50_000, 3)
    expect(runDry.late?.draw_mm).toBeCloseTo(50_000 + 1.644854 * 2000, 0)
    // Rows stand at 46.5 m and 47 m; the byte lies between theirs.
    expect(runDry.early).toMatchObject({ layer: 47, byte: 46_710 })
    expect(runDry.early?.height_mm).toBeCloseTo(9.4, 10)
    expect(runDry.late).toMatchObject({ layer: 54, byte: 53_290 })
    expect(runDry.likely?.share).toBeCloseTo(0.5, 9)
  })

  it('is open where the reel lasts past the end', () => {
    const { runDry } = judge({ ...input, belief: reel(297, 6) })
    expect(runDry.early?.layer).toBe(96)
    expect(runDry.likely?.layer).toBe(99)
    expect(runDry.late).toBeNull()
  })

  it('starts with the first feed on an empty reel', () => {
    const { runDry, verdict } = judge({ ...input, belief: reel(0, 0) })
    expect(verdict).toBe('short')
    expect(runDry.early).toMatchObject({ draw_mm: 0, share: 0, layer: 1, byte: 500 })
  })

  it('names the layer by the layer ends, where rows of the curve are further apart', () => {
    // A thousand layers of 40 mm, and a row of the curve at every third layer end only.
    const { alternative: fine, layers: many } = steadyPrint(1000, 40)
    const sparse: DrawAlternative = {
      ...fine,
      curve: {
        draw_mm: fine.curve!.draw_mm.filter(kept),
        height_mm: fine.curve!.height_mm.filter(kept),
        layer: fine.curve!.layer.filter(kept),
        byte: fine.curve!.byte.filter(kept),
      },
    }
    for (const end of [1, 2, 3, 499, 500, 999]) {
      // A little before a layer ends, and a little after.
      for (const [off, layer] of [
        [-1, end],
        [1, end + 1],
      ] as const) {
        const belief = reel(((end * 40 + off) * 3) / 1000, 0)
        const { likely } = judge({
          belief,
          draw: [sparse],
          layers: many,
          printer: exactPrinter,
        }).runDry
        expect(likely?.layer).toBe(layer)
        expect(likely?.height_mm).toBeCloseTo(0.2 * layer, 9)
        expect(likely?.byte).toBeGreaterThanOrEqual(1000 * (layer - 1))
        expect(likely?.byte).toBeLessThanOrEqual(1000 * layer)
      }
    }
  })

  it('is before the first layer where the start takes it all', () => {
    const withMacro = { ...alternative, startMacro_mm: 500 }
    const at = (net: number) =>
      judge({ ...input, draw: [withMacro], belief: reel(net, 0) }).runDry.likely?.layer
    expect([at(1.4), at(1.6)]).toEqual([0, 1])
  })

  it('knows neither layer nor height of a bare length', () => {
    const { runDry } = judge({
      belief: reel(150, 6),
      draw: [sixtyTwoMetres],
      printer: exactPrinter,
    })
    expect(runDry.likely).toMatchObject({ layer: null, height_mm: null, byte: null })
  })
})

describe('change point', () => {
  const { alternative, layers } = steadyPrint(100, 1000)
  const belief = beliefOf(measured(150, 6), measured(3, 0.05))

  it('is the last layer end reached with the confidence, as counting through them finds', () => {
    for (const confidence of [0.6, 0.9, 0.95, 0.999]) {
      const { changeBefore } = judge({ belief, draw: [alternative], layers, confidence })
      const model = marginModel(belief, unknownPrinter)
      let counted = 0
      while (chanceAt(model, (counted + 1) * 1000) >= confidence) counted++
      expect(changeBefore).toEqual({
        layer: counted,
        height_mm: expect.closeTo(0.2 * counted, 10),
        draw_mm: 1000 * counted,
        byte: 1000 * counted,
        planned_s: null,
        firstLayer: 1,
      })
    }
  })

  it('is the last layer when the reel is enough, and none when it is empty', () => {
    const full = beliefOf(measured(900, 6), measured(3))
    expect(judge({ belief: full, draw: [alternative], layers }).changeBefore?.layer).toBe(100)
    const empty = beliefOf(measured(1, 1), measured(3))
    expect(judge({ belief: empty, draw: [alternative], layers }).changeBefore).toBeNull()
    expect(judge({ belief, draw: [sixtyTwoMetres] }).changeBefore).toBeNull()
  })

  it('is none before the part judged begins', () => {
    // The part begins with the third layer: the ends before it draw nothing.
    const ends = alternative.layerEnd_mm!.map((end) => Math.max(0, end - 2000))
    const part = { ...alternative, layerEnd_mm: ends, firstLayer: 3 }
    const of = (net: number) =>
      judge({ belief: reel(net, 0), draw: [part], layers, printer: exactPrinter }).changeBefore
    expect(of(2)).toBeNull()
    expect(of(4)?.layer).toBe(3)
  })

  it('holds for every alternative together', () => {
    const double = steadyPrint(100, 2000).alternative
    const both = [{ ...alternative, weight: 3 }, double]
    const { changeBefore } = judge({ belief, draw: both, layers })
    const model = marginModel(belief, unknownPrinter)
    const chance = (layer: number): number =>
      0.75 * chanceAt(model, 1000 * layer) + 0.25 * chanceAt(model, 2000 * layer)
    const { layer } = changeBefore!
    expect(chance(layer)).toBeGreaterThanOrEqual(0.95)
    expect(chance(layer + 1)).toBeLessThan(0.95)
  })
})

describe('facts that contradict each other', () => {
  // A carrier of 250 g, a label of 1 kg, and 1000 g when new: a quarter of a kilogram is missing.
  const belief = believe({
    grossNow: weighing(800),
    grossWhenNew: weighing(1000),
    tare: { kind: 'weighed', weighing: weighing(250) },
    labelNet: grams(1000),
    ...pla,
  })
  const { alternative, layers } = steadyPrint(100, 100)

  it.each([
    ['much less', 1],
    ['much more', 100],
  ])('leave the call close for %s than they add up to', (_, times) => {
    const draw = [{ ...alternative, peak_mm: alternative.peak_mm * times }]
    const found = judge({ belief, draw, layers })
    expect(Math.abs(found.chance - 0.5)).toBeGreaterThan(0.45)
    expect(found.verdict).toBe('close')
    expect(found.contradicting.map(({ id }) => id)).toContain('label')
    expect(found.changeBefore).toBeNull()
    expect(judgePrint([{ tool: 0, belief, draw }]).verdict).toBe('close')
  })

  it('do not stand against another reel that is short', () => {
    const draw = [alternative]
    const poor = { belief: reelOf(300, 250), draw: [sixtyTwoMetres] }
    const tools = [
      { tool: 0, belief, draw },
      { tool: 1, ...poor },
    ]
    expect(judgePrint(tools).verdict).toBe('short')
  })
})

describe('a reel near full on a guessed carrier', () => {
  it.each([1200, 1250, 1300, 1350, 1400])(
    'has nearly the chance that integrating over its net mass gives, at %d g',
    (gross) => {
      const belief = believe({ grossNow: weighing(gross), labelNet: grams(1000), ...pla })
      const model = marginModel(belief, unknownPrinter)
      for (const draw of [300_000, 320_000, 340_000]) {
        // n is flat, below n₀ ~ N(1005, 15), and gross − n is the tare, N(250, 60).
        let all = 0
        let lasting = 0
        const { value: perMetre, u } = model.linearDensity
        for (let net = 600; net < 1200; net += 0.5) {
          const weight = normalDensity((gross - net - 250) / 60) * normalCdf((1005 - net) / 15)
          const exactNet = { ...model, net: measured(net), covariance: 0 }
          all += weight
          lasting += weight * chanceAt(exactNet, draw)
        }
        expect(u / perMetre).toBeLessThan(0.03)
        expect(Math.abs(chanceAt(model, draw) - lasting / all)).toBeLessThan(0.035)
      }
    },
  )
})

describe('alternatives', () => {
  const belief = beliefOf(measured(200, 5), measured(3, 0.03))

  it('are weighed by their weights, heaviest first', () => {
    const draw = [
      { weight: 1, peak_mm: 70_000, label: 'read so' },
      { weight: 3, peak_mm: 60_000, label: 'read otherwise' },
    ]
    const verdict = judge({ belief, draw })
    expect(verdict.alternatives.map(({ label }) => label)).toEqual(['read otherwise', 'read so'])
    expect(verdict.alternatives.map(({ verdict: call }) => call)).toEqual(['enough', 'short'])
    const [likeliest, other] = verdict.alternatives
    expect(verdict.chance).toBeCloseTo(0.75 * likeliest!.chance + 0.25 * other!.chance, 12)
    expect(verdict.verdict).toBe('close')
    expect(verdict.neededDraw_mm.value).toBeCloseTo(62_500, 9)
    expect(verdict.neededDraw_mm.u).toBeCloseTo(10_000 * Math.sqrt(0.75 * 0.25), 6)
    expect(verdict.margin.u).toBeGreaterThan(10)
    expect(verdict.runDry).toBe(likeliest!.runDry)
  })

  it('are not listed when there is only one', () => {
    const verdict = judge({ belief, draw: [sixtyTwoMetres] })
    expect(verdict.alternatives).toEqual([])
    expect(verdict.neededDraw_mm.u).toBe(0)
  })
})

describe('the draw of a reading', () => {
  const { alternative } = steadyPrint(10, 1000)
  const tool = {
    tool: 1,
    net_mm: 10_000,
    peak_mm: 10_000,
    startMacro_mm: 0,
    layerEnd_mm: alternative.layerEnd_mm!,
    curve: alternative.curve!,
  }

  it('has one alternative for each group of families, weighed by their number', () => {
    const draw = drawOfReading(
      {
        families: [
          { families: ['community', 'community-1', 'meta'], tools: [tool] },
          { families: ['host'], tools: [{ ...tool, peak_mm: 11_000 }] },
          { families: ['textfile'], tools: [] },
        ],
      },
      1,
    )
    expect(draw.map(({ weight, peak_mm }) => [weight, peak_mm])).toEqual([
      [3, 10_000],
      [1, 11_000],
      [1, 0],
    ])
    expect(draw[0]).toMatchObject({ label: 'community, community-1, meta', curve: tool.curve })
    const verdict = judge({ belief: reel(30, 1), draw })
    expect(verdict.alternatives.map((one) => one.weight)).toEqual([0.6, 0.2, 0.2])
    // One group feeds nothing with this tool and so has no layer ends to speak of.
    expect(verdict.changeBefore).toBeNull()
  })
})

describe('several tools', () => {
  const sure = { belief: reelOf(1250, 250), draw: [{ weight: 1, peak_mm: 20_000 }] }
  const guessed = { belief: reelOf(422), draw: [sixtyTwoMetres] }
  const poor = { belief: reelOf(300, 250), draw: [sixtyTwoMetres] }
  const nearly = { belief: reelOf(448, 250), draw: [{ weight: 1, peak_mm: 62_000 }] }

  it('finish together with the product of their chances', () => {
    const print = judgePrint([
      { tool: 0, ...sure },
      { tool: 1, ...guessed },
    ])
    expect(print.tools.map(({ tool, verdict }) => [tool, verdict])).toEqual([
      [0, 'enough'],
      [1, 'close'],
    ])
    expect(print.chance).toBeCloseTo(print.tools[0]!.chance * print.tools[1]!.chance, 12)
    expect(print.verdict).toBe('close')
  })

  it('are short when one is, and enough when all are', () => {
    expect(
      judgePrint([
        { tool: 0, ...sure },
        { tool: 3, ...poor },
      ]).verdict,
    ).toBe('short')
    expect(
      judgePrint([
        { tool: 0, ...sure },
        { tool: 1, ...sure },
      ]).verdict,
    ).toBe('enough')
  })

  it('are not called short because many are close', () => {
    const tools = Array.from({ length: 6 }, (_, tool) => ({ tool, ...guessed }))
    const print = judgePrint(tools)
    expect(print.chance).toBeLessThan(0.05)
    expect(print.verdict).toBe('close')
  })

  it('take the product to the safe side of what they have in common', () => {
    const print = judgePrint([
      { tool: 0, ...nearly },
      { tool: 1, ...nearly },
    ])
    expect(print.chance).toBeLessThan(Math.min(...print.tools.map(({ chance }) => chance)))
  })

  it('must be at least one', () => {
    expect(() => judgePrint([])).toThrow(expect.objectContaining({ code: 'no_tools' }))
  })
})

describe('a reel that may be empty', () => {
  const few = [{ weight: 1, peak_mm: 300 }]
  const guessed = believe({ ...pla, grossNow: weighing(265) })
  const known = believe({
    ...pla,
    grossNow: weighing(265),
    tare: { kind: 'stated', tare: measured(grams(230), 1) },
  })

  it('is no more than close, however little is asked', () => {
    const found = judge({ belief: guessed, draw: few })
    expect(found.chance).toBeGreaterThan(0.95)
    expect(found.some).toBeCloseTo(normalCdf(15 / 60), 1)
    expect(found.verdict).toBe('close')
    expect(judge({ belief: known, draw: few }).verdict).toBe('enough')
    expect(judgePrint([{ tool: 0, belief: guessed, draw: few }]).verdict).toBe('close')
  })

  it('is enough at a confidence that the facts alone give, and short as any other', () => {
    const asked = { belief: guessed, draw: few, confidence: 0.55 }
    expect(judge(asked).verdict).toBe('enough')
    expect(judge({ belief: guessed, draw: [{ weight: 1, peak_mm: 200_000 }] }).verdict).toBe(
      'short',
    )
  })

  it('is settled by what tells its carrier, where that leaves it surely not empty', () => {
    const [next, ...others] = nextMeasures({ belief: guessed, draw: few })
    expect([next?.id, others]).toEqual(['weigh_empty_carrier', []])
    expect(next?.settles).toBeGreaterThan(0.5)
    expect(next?.settles).toBeLessThan(0.95)
  })
})
