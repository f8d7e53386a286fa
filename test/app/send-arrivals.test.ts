import { expect, test } from 'vitest'
import { OutOfTouch, ProblemFault } from '../../src/app/api/problem-fault.ts'
import { type ArrivalsTold, noneTold, sendArrivals } from '../../src/app/bench/send-arrivals.ts'
import type { RecordedJson, ReelRequest } from '../../src/contract/index.ts'

const reel = (id: string, label_net_g: number): ReelRequest => ({
  id,
  make: { name: 'Bight PLA' },
  label_net_g,
})

const fault = (code: string): ProblemFault =>
  new ProblemFault({ type: 'about:blank', title: 'Error', status: 409, code, detail: code })

/** A server that writes an id down once, and what came of it. */
const shelf = () => {
  const there = new Map<string, ReelRequest>()
  const asked: string[] = []
  const failing = new Map<string, 'refused' | 'lost on its way' | 'answer lost'>()
  const send = async (told: ReelRequest): Promise<RecordedJson> => {
    const id = told.id ?? ''
    asked.push(id)
    const how = failing.get(id)
    failing.delete(id)
    if (how === 'refused') throw fault('label_malformed')
    if (how === 'lost on its way') throw new OutOfTouch()
    const before = there.get(id)
    if (before !== undefined && before.label_net_g !== told.label_net_g) throw fault('id_taken')
    there.set(id, told)
    if (how === 'answer lost') throw new OutOfTouch()
    return {
      recorded: true,
      surprise: null,
      facts: [],
      rows: [],
      reels: [{ reel: id, name: id, before: null, now: null }],
      contradicted: [],
      notes: before === undefined ? [] : ['before'],
    }
  }
  return { there, asked, failing, send }
}

test.each(['refused', 'lost on its way', 'answer lost'] as const)(
  'arrivals of which the second is %s go on with the rest, put right',
  async (how) => {
    const { there, asked, failing, send } = shelf()
    failing.set('B', how)
    let told: ArrivalsTold = noneTold
    const onTold = (next: ArrivalsTold): void => {
      told = next
    }
    const typed = ['A', 'B', 'C'].map((id) => reel(id, 750))
    await expect(sendArrivals(typed, told, send, onTold)).rejects.toThrow()
    expect(told.answers.map(({ reels }) => reels[0]?.reel)).toEqual(['A'])
    const right = ['B', 'C'].map((id) => reel(id, 1000))
    const answer = await sendArrivals(right, told, send, onTold)
    expect(answer.reels.map((one) => one.reel)).toEqual(['A', 'B', 'C'])
    expect(asked.filter((id) => id === 'A')).toHaveLength(1)
    // What was written down before it was put right is told as it is.
    const isThere = how === 'answer lost'
    expect(Array.from(there.values(), (one) => one.label_net_g)).toEqual([
      750,
      isThere ? 750 : 1000,
      1000,
    ])
    expect(answer.notes).toEqual(isThere ? ['before'] : [])
  },
)

test('one that surprises stops the others, and those before it stay told', async () => {
  const { asked, send } = shelf()
  let told: ArrivalsTold = noneTold
  const doubting = async (one: ReelRequest): Promise<RecordedJson> => {
    const answer = await send(one)
    return one.id === 'B' && one.accept !== true ? { ...answer, recorded: false } : answer
  }
  const onTold = (next: ArrivalsTold): void => {
    told = next
  }
  const [a, b, c] = [reel('A', 750), reel('B', 750), reel('C', 750)]
  const stopped = await sendArrivals([a, b, c], told, doubting, onTold)
  expect(stopped.recorded).toBe(false)
  expect(told.answers).toHaveLength(1)
  const taken = await sendArrivals([{ ...b, accept: true }, c], told, doubting, onTold)
  expect(taken.reels.map((one) => one.reel)).toEqual(['A', 'B', 'C'])
  expect(asked).toEqual(['A', 'B', 'B', 'C'])
})

test('an id that another fact has is refused', async () => {
  const { there, send } = shelf()
  there.set('A', reel('A', 500))
  const sent = sendArrivals([reel('A', 750)], noneTold, send, () => {})
  await expect(sent).rejects.toThrow('id_taken')
})
