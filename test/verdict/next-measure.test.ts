import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  defaultPriors,
  linearDensityOf,
  netOf,
  reckonReel,
  tareOf,
} from '../../src/estimate/index.ts'
import { grams, gramsPerMetre, measured, millimetres } from '../../src/units/index.ts'
import {
  drawWithChance,
  judge,
  judgePrint,
  marginModel,
  nextMeasures,
  nextMeasuresOfPrint,
  unknownPrinter,
  type VerdictInput,
} from '../../src/verdict/index.ts'
import { measures } from '../../src/verdict/measure.ts'
import { believe, pla, reelOf, weighing } from './bench-reels.ts'

const draw = [{ weight: 1, peak_mm: 62_000 }]
const idsOf = (input: VerdictInput): readonly string[] => nextMeasures(input).map(({ id }) => id)

describe('the measures', () => {
  const page = readFileSync(new URL('../../docs/method/verdict.md', import.meta.url), 'utf8')

  it.each(measures)('$id stands in the method page with its minutes', ({ id, effort_min }) => {
    const row = page.split('\n').find((line) => line.startsWith(`| \`${id}\` |`))
    expect(row?.split('|').at(-2)?.trim()).toBe(String(effort_min))
  })
})

describe('the next measurement', () => {
  it('is none when the call is settled', () => {
    expect(nextMeasures({ belief: reelOf(1250, 250), draw })).toEqual([])
    expect(nextMeasures({ belief: reelOf(400, 250), draw })).toEqual([])
  })

  it('is the carrier when only the carrier is guessed; what changes nothing is left out', () => {
    const input = { belief: reelOf(422), draw }
    const [first, ...others] = nextMeasures(input)
    expect(first).toMatchObject({ id: 'weigh_empty_carrier' })
    expect(first?.settles).toBeGreaterThan(0.75)
    expect(others).toEqual([])
  })

  it('is the filament or the printer when the reel is well weighed', () => {
    const ids = idsOf({ belief: reelOf(442, 250), draw })
    expect(ids).toContain('weigh_cut_metre')
    expect(ids).toContain('weigh_around_a_print')
    expect(ids).not.toContain('weigh_reel')
    // One more carrier of the make would not be this one either.
    expect(ids).not.toContain('weigh_empty_carrier')
  })

  it('is a weighing when the net mass comes from the winding alone', () => {
    const winding = {
      hub: measured(millimetres(80), 1),
      outer: measured(millimetres(112), 2),
      width: measured(millimetres(40), 1),
    }
    const known = { kind: 'stated', tare: measured(grams(231), 3) } as const
    const [first] = nextMeasures({ belief: believe({ winding, tare: known, ...pla }), draw })
    expect(first?.id).toBe('weigh_reel')
  })

  it('predicts the spread that the measurement then leaves', () => {
    // The oracle is the estimate itself: the carrier is really weighed, and comes out as expected.
    const [first] = nextMeasures({ belief: reelOf(422), draw })
    const after = judge({ belief: reelOf(422, 250), draw })
    expect(first!.marginSd / after.margin.u).toBeCloseTo(1, 2)
  })

  it('settles as often as it says, counted over what the carrier may turn out to weigh', () => {
    const belief = reelOf(430)
    const [first] = nextMeasures({ belief, draw })
    const random = new SeededRandom(31)
    const tare = tareOf(belief)
    const spread = Math.hypot(tare.u, defaultPriors.carrierOfOneMake.u)
    const trials = 400
    let settled = 0
    for (let i = 0; i < trials; i++) {
      const carrier = random.normal(tare.value, spread)
      if (judge({ belief: reelOf(430, carrier), draw }).verdict !== 'close') settled++
    }
    const p = first!.settles
    expect(Math.abs(settled / trials - p)).toBeLessThan(
      4 * Math.sqrt((p * (1 - p)) / trials) + 0.01,
    )
  })

  it('puts what settles the call first, by effort, and the rest by chance', () => {
    for (const carrier of [undefined, 250]) {
      const found = nextMeasures({ belief: reelOf(440, carrier), draw, confidence: 0.7 })
      const good = found.filter(({ settles }) => settles >= 0.5)
      expect(found.slice(0, good.length)).toEqual(good)
      expect(good).toEqual(good.toSorted((a, b) => a.effort_min - b.effort_min))
      const rest = found.slice(good.length)
      expect(rest).toEqual(rest.toSorted((a, b) => b.settles - a.settles))
    }
  })

  it('does not widen the margin, and says what to do in a sentence', () => {
    const belief = reelOf(442, 250)
    const before = judge({ belief, draw }).margin.u
    for (const { marginSd, settles, instruction } of nextMeasures({ belief, draw })) {
      expect(marginSd).toBeLessThan(before)
      expect(settles).toBeGreaterThanOrEqual(0)
      expect(settles).toBeLessThanOrEqual(1)
      expect(instruction).toMatch(/^[A-Z].*\.$/s)
    }
  })

  it('does not offer the weighing just made, unless it was a coarse one', () => {
    const short = [{ weight: 1, peak_mm: 4000 }]
    const fine = { belief: reelOf(262, 250), draw: short }
    expect(judge(fine).verdict).toBe('close')
    expect(idsOf(fine)).not.toContain('weigh_reel')
    const rough = believe({
      grossNow: { ...weighing(262), u: 29 },
      tare: { kind: 'weighed', weighing: weighing(250) },
      ...pla,
    })
    expect(idsOf({ belief: rough, draw: short })[0]).toBe('weigh_reel')
  })

  it('of a print is what settles the print, where each reel by itself is sure', () => {
    // About 96 % each, and 92 % together.
    const belief = reelOf(430, 250)
    const peak_mm = drawWithChance(marginModel(belief, unknownPrinter), 0.96)
    const each = { belief, draw: [{ weight: 1, peak_mm }] }
    const tools = [
      { tool: 0, ...each },
      { tool: 1, ...each },
    ]
    const print = judgePrint(tools)
    expect(print.tools.map(({ verdict }) => verdict)).toEqual(['enough', 'enough'])
    expect(print.verdict).toBe('close')
    expect(nextMeasures(each)).toEqual([])
    const [first, second] = nextMeasuresOfPrint(tools)
    expect(first!.length).toBeGreaterThan(0)
    expect(second).toEqual(first)
    for (const { settles } of first!) expect(settles).toBeLessThan(1)
    // With the filament measured as it was expected, the print is settled.
    const measuredReel = believe({
      grossNow: weighing(430),
      tare: { kind: 'weighed', weighing: weighing(250) },
      ...pla,
      linearDensity: measured(linearDensityOf(belief).value, 0.02),
    })
    const then = judgePrint([
      { tool: 0, ...each, belief: measuredReel },
      { tool: 1, ...each },
    ])
    expect(then.chance).toBeGreaterThan(print.chance)
    expect(first![0]!.settles).toBeGreaterThan(0.2)
  })

  it('counts what a reel that is not empty by less than nothing may turn out to hold', () => {
    const belief = reelOf(200)
    const short = [{ weight: 1, peak_mm: 5000 }]
    const [first] = nextMeasures({ belief, draw: short })
    expect(first?.id).toBe('weigh_empty_carrier')
    const random = new SeededRandom(32)
    let trials = 0
    let settled = 0
    while (trials < 400) {
      const own = random.normal(250, 60)
      if (own > 200) continue
      trials++
      const carrier = own + random.normal(0, defaultPriors.carrierOfOneMake.u)
      const after = reckonReel({
        grossNow: weighing(200),
        tare: { kind: 'weighed', weighing: weighing(carrier) },
        ...pla,
      })
      if (!after.ok || judge({ belief: after.value, draw: short }).verdict !== 'close') settled++
    }
    const p = first!.settles
    expect(Math.abs(settled / trials - p)).toBeLessThan(
      4 * Math.sqrt((p * (1 - p)) / trials) + 0.01,
    )
  })

  it('asks for the firmware when the readings differ and that settles it', () => {
    const belief = believe({
      grossNow: weighing(450),
      tare: { kind: 'weighed', weighing: weighing(250), own: true },
      ...pla,
      linearDensity: measured(gramsPerMetre(2.98), 0.01),
    })
    const printer = {
      feedFactor: measured(1, 0.002),
      startAllowance_mm: measured(millimetres(0)),
      tail_mm: measured(millimetres(500), 100),
    }
    const readings = [
      { weight: 1, peak_mm: 62_000 },
      { weight: 1, peak_mm: 72_000 },
    ]
    const [first] = nextMeasures({ belief, printer, draw: readings })
    expect(first).toMatchObject({ id: 'name_firmware', settles: 1 })
    expect(first!.marginSd).toBeLessThan(judge({ belief, printer, draw: readings }).margin.u / 2)
    expect(netOf(belief).value).toBeCloseTo(200, 0)
  })
})
