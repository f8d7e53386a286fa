// oxlint-disable no-await-in-loop -- one fact after another, each acknowledged before the next
import { randomBytes } from 'node:crypto'
import { writeSync } from 'node:fs'
import { idLength, makeId } from '../../src/contract/index.ts'
import { openStore } from '../../src/store/index.ts'
import { weighing } from './records.ts'

// A program that appends facts and prints the id of each on standard output once it is acknowledged:
// `node append-forever.ts FOLDER REEL SCALE [COUNT]`. It is killed, or watched, by tests.

const [folder = '', reel = '', scale = '', count = '1e9'] = process.argv.slice(2)
const randomByte = (): number => randomBytes(1)[0]!

const opened = await openStore(folder)
if (!opened.ok) throw new Error(opened.refusal.message)
for (let turn = 0; turn < Number(count); turn++) {
  const fact = weighing(turn + 1, makeId(idLength.fact, randomByte), reel)
  const outcome = await opened.value.append([{ ...fact, weighing: { ...fact.weighing, scale } }])
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  writeSync(1, `${fact.id}\n`)
}
await opened.value.close()
