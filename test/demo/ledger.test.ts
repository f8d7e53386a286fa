import { expect, test } from 'vitest'
import { harbourLedger, harbourLedgerText } from '../../demo/ledger/harbour.ts'
import { type BenchReel } from '../../demo/reel.ts'
import { reels } from '../../demo/reels.ts'
import { isCatalogueRow, isFact } from '../../src/contract/index.ts'
import { readLedger } from '../../src/ledger/index.ts'
import { reelNow, viewOf } from '../../src/service/index.ts'

test('the ledger of the bench is read line by line, and is the same at every run', () => {
  const read = readLedger(harbourLedgerText().split('\n'))
  expect(read.ok && read.value).toEqual(harbourLedger())
  expect(harbourLedgerText()).toBe(harbourLedgerText())
})

test('what it tells of a reel lies where the truth is', () => {
  const records = harbourLedger()
  const view = viewOf(records.filter(isCatalogueRow), records.filter(isFact), 0)
  if (!view.ok) throw new Error(view.refusal.message)
  const { cards, shelf } = view.value
  expect(shelf.left).toEqual([])
  const inUse = [...cards.values()].filter(({ state }) => state !== 'retired')
  expect(inUse).toHaveLength(Object.keys(reels).length)
  for (const { id, colour } of inUse) {
    const { hidden } = Object.values<BenchReel>(reels).find((reel) => reel.colour === colour?.name)!
    const { net, tare } = reelNow(view.value, id)
    expect(Math.abs(net.value - hidden.net_g) / net.u).toBeLessThan(3)
    expect(Math.abs(tare.value - hidden.tare_g) / tare.u).toBeLessThan(3)
  }
})
