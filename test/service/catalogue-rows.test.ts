import { expect, test } from 'vitest'
import { addRow, changeRow, listPriors, listRows, setPrior } from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, valueOf } from '../shelf-bench.ts'

test('a name is taken once, in any case', async () => {
  const handed = await bench()
  valueOf(await addRow(handed, 'person', { name: 'Maud' }))
  expect(codeOf(await addRow(handed, 'person', { name: ' MAUD' }))).toBe('name_taken')
  expect(valueOf(await listRows(handed, 'person')).map(({ name }) => name)).toEqual(['Maud'])
})

test('a make is called anew by maker and name together', async () => {
  const handed = await bench()
  const added = await addRow(handed, 'make', { maker: 'Tern', name: 'TPU' })
  const { id } = valueOf(added).rows[0]!
  valueOf(await addRow(handed, 'make', { maker: 'Gannet', name: 'PLA' }))
  const called = async (change: { readonly name: string; readonly maker?: string }) => {
    const [row] = valueOf(await changeRow(handed, 'make', id, change)).rows
    return row?.kind === 'make' ? [row.maker, row.name] : []
  }
  expect(await called({ name: 'Tern TPU, soft' })).toEqual(['Tern', 'TPU, soft'])
  // That of another maker who is known; of one who is not, it is a word of the name.
  expect(await called({ name: 'gannet TPU' })).toEqual(['Gannet', 'TPU'])
  expect(await called({ name: 'Petrel TPU' })).toEqual(['Gannet', 'Petrel TPU'])
  expect(await called({ name: 'Tern TPU', maker: 'Fulmar' })).toEqual(['Fulmar', 'Tern TPU'])
  expect(await called({ name: 'Petrel TPU', maker: 'Petrel' })).toEqual(['Petrel', 'TPU'])
})

test('of two known makers before a name it is the longer one', async () => {
  const handed = await bench()
  for (const maker of ['Petrel', 'Petrel Marine', 'Tern']) {
    // oxlint-disable-next-line no-await-in-loop -- one after another, in one ledger
    valueOf(await addRow(handed, 'make', { maker, name: 'PLA' }))
  }
  const called = await changeRow(handed, 'make', 'Tern PLA', { name: 'Petrel Marine TPU' })
  expect(valueOf(called).rows[0]).toMatchObject({ maker: 'Petrel Marine', name: 'TPU' })
})

test('a make whose name is told with its maker has it once', async () => {
  const handed = await bench()
  valueOf(await addRow(handed, 'make', { maker: 'Tern', name: 'Tern TPU' }))
  const again = await addRow(handed, 'make', { maker: 'Tern', name: 'TPU' })
  expect(codeOf(again)).toBe('name_taken')
  expect(valueOf(await listRows(handed, 'make')).map(({ name }) => name)).toEqual(['TPU'])
})

test('a name that another has can not be changed to; its own may be written otherwise', async () => {
  const handed = await bench()
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  valueOf(await addRow(handed, 'printer', { name: 'right' }))
  expect(codeOf(await changeRow(handed, 'printer', 'left', { name: ' Right ' }))).toBe('name_taken')
  valueOf(await changeRow(handed, 'printer', 'left', { name: ' LEFT ' }))
  expect(valueOf(await listRows(handed, 'printer')).map(({ name }) => name)).toEqual([
    'LEFT',
    'right',
  ])
})

test('what is not told stays, and the row changed last holds though a clock went back', async () => {
  const handed = await bench()
  valueOf(await addRow(handed, 'printer', { name: 'left', firmware: 'host' }))
  const early = { ...handed, now: () => 0 }
  valueOf(await changeRow(early, 'printer', 'LEFT', { name: 'harbour' }))
  const [row] = valueOf(await listRows(handed, 'printer'))
  expect(row).toMatchObject({ name: 'harbour', firmware: 'host' })
  expect(codeOf(await changeRow(handed, 'printer', 'left', {}))).toBe('printer_unknown')
  expect(codeOf(await changeRow(handed, 'printer', 'harbour', {}))).toBe('nothing_changed')
})

test('what a printer takes beside its prints is no longer than any feed path', async () => {
  const handed = await bench()
  const long = { value: 400_000, u: 1 }
  const codes = [
    await addRow(handed, 'printer', { name: 'left', tail_mm: long }),
    await addRow(handed, 'printer', { name: 'left', start_allowance_mm: { value: 20_000, u: 1 } }),
    await changeRow(handed, 'printer', 'left', { change_mm: long }),
  ].map(codeOf)
  expect(codes).toEqual(['length_too_large', '', 'length_too_large'])
})

test('another density of a material changes the reels of the makes that are of it', async () => {
  const handed = await bench()
  const heavy = { value: 1.9, u: 0.05 }
  valueOf(await addRow(handed, 'material', { name: 'PLA with ballast', density_g_per_cm3: heavy }))
  const make = { name: 'Ballast', maker: 'Gannet', material: 'pla with BALLAST' }
  const { recorded } = await addKittiwake(handed, { make })
  expect(recorded!.reels[0]!.now!.linearDensity.value).toBeCloseTo(1.9 * 2.405, 1)
})

test('names that several rows have are refused with the candidates', async () => {
  const handed = await bench()
  valueOf(await addRow(handed, 'make', { maker: 'Kittiwake', name: 'PLA' }))
  valueOf(await addRow(handed, 'make', { maker: 'Gannet', name: 'PLA' }))
  const outcome = await changeRow(handed, 'make', 'pla', { label_net_g: 750 })
  expect(codeOf(outcome)).toBe('name_ambiguous')
  expect(
    valueOf(await changeRow(handed, 'make', 'gannet pla', { label_net_g: 750 })).rows,
  ).toHaveLength(1)
})

test('a prior of the shelf’s own takes the place of the usual one, until it is taken back', async () => {
  const handed = await bench()
  await addKittiwake(handed)
  const own = { value: 243, u: 5 }
  valueOf(await setPrior(handed, 'unknownTare.1000', own))
  const found = async () =>
    valueOf(await listPriors(handed)).find(({ key }) => key === 'unknownTare.1000')
  expect((await found())?.own).toEqual(own)
  valueOf(await setPrior(handed, 'unknownTare.1000', undefined))
  expect(await found()).not.toHaveProperty('own')
  expect(codeOf(await setPrior(handed, 'tares', own))).toBe('prior_unknown')
  expect(codeOf(await setPrior(handed, 'tares', undefined))).toBe('prior_unknown')
})
