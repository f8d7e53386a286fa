import { expect, test } from 'vitest'
import { reelListReport } from '../../src/cli/reel-list-report.ts'
import type { Terminal } from '../../src/cli/terminal.ts'
import type { ListedReel } from '../../src/service/index.ts'

const plain: Terminal = { colour: 'none', unicode: true }

const reel = (maker: string, net = { value: 1016.23, u: 5.2 }): ListedReel => {
  const make = { id: 'MMMMM', maker, name: maker }
  const card = { id: 'K7RMY', make, opened: { label_net_g: 1000 }, colour: { name: 'gull grey' } }
  const now = { net, length: { value: 335_210, u: 2100 } }
  // The sheet reads no more of a reel than this.
  return { card: { ...card, state: 'part-used' }, now } as unknown as ListedReel
}

test('figures keep a gap between them, and nothing is wider than the sheet', () => {
  for (const maker of ['Kittiwake', 'Long '.repeat(30).trim(), 'x'.repeat(120)]) {
    const sheet = reelListReport(plain, [reel(maker)], false)
    expect(sheet).toMatch(/ 1016 ± 5 g +335\.2 ± 2\.1 m +never\n/)
    for (const line of sheet.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
  }
})

test('a figure that is longer than usual takes its room off the bar', () => {
  const exact = reel('Kittiwake', { value: 1031.24, u: 1.6 })
  const sheet = reelListReport(plain, [exact, reel('Kittiwake')], false)
  expect(sheet).toMatch(/█ 1031\.2 ± 1\.6 g +335\.2/)
  for (const line of sheet.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
})
