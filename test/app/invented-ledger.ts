import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  type CatalogueRowJson,
  type FactJson,
  idLength,
  type MakeRowJson,
  makeId,
} from '../../src/contract/index.ts'
import { ledgerHeader, ledgerLine } from '../../src/ledger/index.ts'

const makers = ['Tessamund', 'Ostrelle', 'Brannoc', 'Hallvane', 'Quillmere']
const materials = ['pla', 'petg', 'abs', 'asa', 'tpu-95a', 'pa12', 'pc']
const colours = [
  { name: 'coral', srgb: '#e4604e' },
  { name: 'slate', srgb: '#5b6770' },
  { name: 'lifebuoy orange', srgb: '#e8710a' },
  { name: 'signal-flag blue', srgb: '#1f4e8c' },
  { name: 'foam white', srgb: '#f2f1ea' },
  { name: 'tar', srgb: '#202124' },
  { name: 'oilskin yellow', srgb: '#e2b51f' },
  { name: 'starboard green', srgb: '#1e7d4f' },
  { name: 'gull grey', srgb: '#9aa0a3' },
]
const places = ['long shelf', 'window box', 'dry box', 'under the bench']
const begun = Date.UTC(2025, 0, 1)
const day = 86_400_000

/**
 * A ledger of so many reels that nobody has, each opened and weighed once since; the same at every run.
 *
 * @returns its NDJSON file
 */
export const inventedLedger = (count: number): string => {
  const random = new SeededRandom(count)
  const ids = new Set<string>()
  const newId = (length: number): string => {
    for (;;) {
      const id = makeId(length, () => Math.floor(random.uniform() * 256))
      if (ids.has(id)) continue
      ids.add(id)
      return id
    }
  }
  const changed_at = new Date(begun).toISOString()
  const scale = newId(idLength.row)
  const makes = makers.flatMap((maker) =>
    materials.map(
      (material): MakeRowJson => ({
        kind: 'make',
        id: newId(idLength.row),
        changed_at,
        maker,
        name: material.toUpperCase(),
        material,
        label_net_g: 1000,
      }),
    ),
  )
  const tares = makes.map(() => random.between(160, 280))
  const rows: readonly CatalogueRowJson[] = [
    {
      kind: 'scale',
      id: scale,
      changed_at,
      name: 'kitchen scale',
      step_g: 1,
      repeatability_g: 0.5,
      gain: 0.001,
    },
    ...makes,
  ]
  const facts = Array.from({ length: count }, (): readonly FactJson[] => {
    const which = Math.floor(random.uniform() * makes.length)
    const reel = newId(idLength.row)
    const opened = begun + Math.floor(random.uniform() * 200) * day
    const weighed = opened + Math.ceil(random.uniform() * 150) * day
    const common = (at: number): Pick<FactJson, 'id' | 'at' | 'recorded_at'> => ({
      id: newId(idLength.fact),
      at: new Date(at).toISOString(),
      recorded_at: new Date(at).toISOString(),
    })
    return [
      {
        kind: 'opened',
        ...common(opened),
        reel,
        make: makes[which]!.id,
        label_net_g: 1000,
        part_used: true,
        colour: random.pick(colours),
        place: random.pick(places),
      },
      {
        kind: 'weighed',
        ...common(weighed),
        reel,
        weighing: {
          reading_g: Math.round(tares[which]! + random.uniform() ** 1.5 * 1000),
          scale,
        },
      },
    ]
  })
    .flat()
    .toSorted((a, b) => (a.at < b.at ? -1 : Number(a.at > b.at)))
  const file = join(mkdtempSync(join(tmpdir(), 'reelreckon-invented-')), `${count}-reels.ndjson`)
  const lines = [ledgerHeader(begun), ...[...rows, ...facts].map(ledgerLine)]
  writeFileSync(file, `${lines.join('\n')}\n`)
  return file
}
