import { expect, test } from 'vitest'
import { setUpWords } from '../../src/app/strings/set-up-words.ts'
import { ledgerTables } from '../../src/ledger/index.ts'

test('every table of the ledger is offered for a spreadsheet', () => {
  const all = ledgerTables([], [], []).map(({ name }) => name)
  expect(Object.keys(setUpWords.tables).toSorted()).toEqual(all.toSorted())
})
