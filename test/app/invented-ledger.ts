import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { largeShelf } from '../../demo/ledger/large-shelf.ts'
import { ledgerHeader, ledgerLine } from '../../src/ledger/index.ts'

/** A ledger of so many reels that nobody has. @returns its NDJSON file */
export const inventedLedger = (count: number): string => {
  const file = join(mkdtempSync(join(tmpdir(), 'reelreckon-invented-')), `${count}-reels.ndjson`)
  const lines = [ledgerHeader(Date.UTC(2026, 0, 1)), ...largeShelf(count).map(ledgerLine)]
  writeFileSync(file, `${lines.join('\n')}\n`)
  return file
}
