// Chances of the whole-shelf estimate against what happens: node benchmarks/shelf-reliability.ts
import { readFileSync, writeFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { shelfWorlds, worldElsewhere } from '../test/verdict/shelf-worlds.ts'
import { simulateShelves } from '../test/verdict/simulated-shelf.ts'
import { describeMachine } from './machine.ts'
import { withSection } from './results-page.ts'
import { shelfHeading, shelfReport } from './shelf-report.ts'

const usage = `usage: node benchmarks/shelf-reliability.ts [options]
  --cases N      prints asked about in each world, default 20000
  --seed N       default 1
  --as-guessed   spreads as the priors have them, none learnt
  --write        write its section of benchmarks/RESULTS.md`

const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
    'as-guessed': { type: 'boolean', default: false },
    write: { type: 'boolean', default: false },
  },
})
const cases = Number(values.cases)
const seed = Number(values.seed)
if (!Number.isInteger(cases) || cases < 100 || !Number.isInteger(seed)) {
  console.error(usage)
  process.exitCode = 2
} else {
  const learns = !values['as-guessed']
  const runs = [...shelfWorlds, worldElsewhere].map((world) => ({
    world,
    simulation: simulateShelves(world, cases, seed, { learns }),
    elsewhere: world === worldElsewhere,
  }))
  const command = `node benchmarks/shelf-reliability.ts --cases ${cases} --seed ${seed}`
  const section = shelfReport(runs, `${command}${learns ? '' : ' --as-guessed'}`, describeMachine())
  console.log(section)
  if (values.write) {
    const path = 'benchmarks/RESULTS.md'
    writeFileSync(path, withSection(readFileSync(path, 'utf8'), shelfHeading, section))
  }
}
