import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { mostInTime } from '../../src/match/most-in-time.ts'
import { lateInSequence, type PrintJob } from '../../src/match/print-job.ts'

/** Two printers, 0 and 1, and three reels behind them. */
const free = Float64Array.of(0, 0, 0, 0, 0)
const job = (
  copy: number,
  needs: readonly number[],
  duration_h: number,
  due_h: number,
): PrintJob => ({
  copy,
  needs,
  duration_h,
  due_h,
})

/** Of every set of jobs in every sequence the most that are in time, by the clock alone. */
const mostOfAll = (jobs: readonly PrintJob[], free_h: Float64Array): number => {
  let most = 0
  const look = (now: readonly number[], left: readonly PrintJob[], inTime: number): void => {
    most = Math.max(most, inTime)
    for (const one of left) {
      const end = Math.max(...one.needs.map((need) => now[need]!)) + one.duration_h
      if (end > one.due_h) continue
      look(
        now.map((at, thing) => (one.needs.includes(thing) ? end : at)),
        left.filter((each) => each !== one),
        inTime + 1,
      )
    }
  }
  look([...free_h], jobs, 0)
  return most
}

describe('jobs that need a printer and reels', () => {
  it('does what shares a reel one after the other', () => {
    const jobs = [job(0, [0, 2], 3, 4), job(1, [1, 2], 2, 4)]
    expect(mostInTime(jobs, free)).toMatchObject({ jobs: [{}], isMost: true })
    expect(mostInTime([jobs[0]!, { ...jobs[1]!, due_h: 5 }], free).jobs).toHaveLength(2)
  })

  it('knows where printers and reels alone do not tell', () => {
    // Each reel and each printer has time enough, but whichever begins keeps two of the others waiting.
    const jobs = [job(0, [0, 2], 2, 4), job(1, [0, 3], 2, 4), job(2, [1, 2, 3], 2, 4)]
    expect(mostInTime(jobs, free)).toMatchObject({ jobs: [{}, {}], isMost: true })
  })

  it.each(Array.from({ length: 60 }, (_, i) => i + 1))(
    'seed %i: as many as of every sequence',
    (seed) => {
      const random = new SeededRandom(seed)
      const whole = (low: number, high: number): number => Math.floor(random.between(low, high + 1))
      const busy = Float64Array.from(free, () => (random.uniform() < 0.2 ? 1 : 0))
      const jobs = Array.from({ length: 6 }, (_, copy) => {
        const reels = random.uniform() < 0.3 ? [2, 4] : [whole(2, 4)]
        return job(copy, [whole(0, 1), ...reels], whole(0, 4), whole(2, 11))
      })
      const most = mostOfAll(jobs, busy)
      const found = mostInTime(jobs, busy)
      expect(found.isMost).toBe(true)
      expect(found.jobs).toHaveLength(most)
      expect(lateInSequence(found.jobs, busy)).toBe(0)
      expect(mostInTime(jobs, busy, { asked: jobs.length }).jobs.length === jobs.length).toBe(
        most === jobs.length,
      )
    },
  )
})
