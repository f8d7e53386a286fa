import type { Command } from 'commander'
import { addOptions } from './add-options.ts'
import { catalogueOptions, makeOptions, type ValueOption } from './option-table.ts'

type Given = Record<string, unknown>

const exits = `

Exit code: 0 done, 2 wrong usage, 4 the ledger can not be read or written.`

const noteOption: ValueOption = { name: 'note', value: 'TEXT', help: 'a note of one line' }
const nameOption: ValueOption = { name: 'name', value: 'NAME', help: 'another name' }
const retiredOption: ValueOption = { name: 'retired', help: 'no longer in use' }

const printerOptions: readonly ValueOption[] = [
  {
    name: 'firmware',
    value: 'ID',
    help: 'its family: community, community-1, meta, host, textfile',
  },
  { name: 'feed-factor', value: 'FACTOR', help: "feed per millimetre asked, '1.01±0.005'" },
  {
    name: 'start-allowance',
    value: 'LENGTH',
    help: 'filament used before each file begins, as 40mm',
  },
  { name: 'tail', value: 'LENGTH', help: 'last length that can not be printed, as 0.5m' },
  { name: 'change', value: 'LENGTH', help: 'what a planned change of reels takes, as 200mm' },
  {
    name: 'motion',
    value: 'FILE',
    help: 'what it may do: its answer to M503, or its configuration',
  },
]

const scaleOptions: readonly ValueOption[] = [
  { name: 'step', value: 'MASS', help: 'smallest step of its display, as 1g' },
  { name: 'repeat', value: 'MASS', help: 'how well it repeats; half a step unless given' },
  { name: 'gain', value: 'SHARE', help: 'how far its slope may be off, as 0.1%' },
  { name: 'class', value: 'CLASS', help: 'its accuracy class instead: I, II, III or IIII' },
]

const labelOption: ValueOption = {
  name: 'label',
  value: 'MASS',
  help: 'net mass on its labels, as 1kg',
}

/** The commands that say what there is beside reels: makes, printers, scales, people, materials. */
export const addCatalogueProgram = (all: Command): void => {
  const make = group(all, 'make', 'makes of filament: add, change, list, show')
  verb(
    make,
    'add',
    'a make',
    'NAME',
    async (name, given) => {
      const { makeAddCommand } = await import('./make-commands.ts')
      await makeAddCommand(name, given)
    },
    [...makeOptions, labelOption, noteOption],
  )
  verb(
    make,
    'change',
    'what is known of a make',
    'MAKE',
    async (name, given) => {
      const { makeChangeCommand } = await import('./make-commands.ts')
      await makeChangeCommand(name, given)
    },
    [nameOption, ...makeOptions, labelOption, noteOption],
  )
  list(make, 'the makes', async (given) => {
    const { makeListCommand } = await import('./make-commands.ts')
    await makeListCommand(given)
  })
  const show = make
    .command('show')
    .summary('what was told of a make and of no reel')
    .description(
      'Lists what was told of a make and of no reel: empty carriers weighed, and data sheets, with the ids that put-right takes.',
    )
    .argument('<MAKE>', 'by name or id')
    .addHelpText('after', exits)
    .action(async (name: string, given: Given) => {
      const { makeShowCommand } = await import('./make-commands.ts')
      await makeShowCommand(name, given)
    })
  addOptions(show, catalogueOptions)

  const printer = group(all, 'printer', 'printers: add, change, list')
  verb(
    printer,
    'add',
    'a printer',
    'NAME',
    async (name, given) => {
      const { printerAddCommand } = await import('./printer-commands.ts')
      await printerAddCommand(name, given)
    },
    [...printerOptions, noteOption],
  )
  verb(
    printer,
    'change',
    'what is known of a printer',
    'PRINTER',
    async (name, given) => {
      const { printerChangeCommand } = await import('./printer-commands.ts')
      await printerChangeCommand(name, given)
    },
    [nameOption, ...printerOptions, retiredOption, noteOption],
  )
  list(printer, 'the printers', async (given) => {
    const { printerListCommand } = await import('./printer-commands.ts')
    await printerListCommand(given)
  })

  const scale = group(all, 'scale', 'scales: add, change, list')
  verb(
    scale,
    'add',
    'a scale',
    'NAME',
    async (name, given) => {
      const { scaleAddCommand } = await import('./scale-commands.ts')
      await scaleAddCommand(name, given)
    },
    [...scaleOptions, noteOption],
  )
  verb(
    scale,
    'change',
    'what is known of a scale',
    'SCALE',
    async (name, given) => {
      const { scaleChangeCommand } = await import('./scale-commands.ts')
      await scaleChangeCommand(name, given)
    },
    [nameOption, ...scaleOptions, retiredOption, noteOption],
  )
  list(scale, 'the scales', async (given) => {
    const { scaleListCommand } = await import('./scale-commands.ts')
    await scaleListCommand(given)
  })

  const person = group(all, 'person', 'people who record: add, list')
  verb(
    person,
    'add',
    'somebody who records',
    'NAME',
    async (name, given) => {
      const { personAddCommand } = await import('./person-commands.ts')
      await personAddCommand(name, given)
    },
    [],
  )
  list(person, 'the people', async (given) => {
    const { personListCommand } = await import('./person-commands.ts')
    await personListCommand(given)
  })

  const material = group(all, 'material', 'materials of your own: add, list')
  verb(
    material,
    'add',
    'a material beside the built-in ones',
    'NAME',
    async (name, given) => {
      const { materialAddCommand } = await import('./material-commands.ts')
      await materialAddCommand(name, given)
    },
    [
      { name: 'density', value: 'DENSITY', help: 'as 1.31g/cm3' },
      {
        name: 'water-share',
        value: 'SHARE',
        help: 'water over dry mass at rest in room air; none unless given',
      },
      noteOption,
    ],
  )
  list(material, 'the materials of your own', async (given) => {
    const { materialListCommand } = await import('./material-commands.ts')
    await materialListCommand(given)
  })

  const priors = group(all, 'priors', 'what is believed beforehand: list, set')
  list(priors, 'what is believed beforehand, with its source', async (given) => {
    const { priorsListCommand } = await import('./priors-commands.ts')
    await priorsListCommand(given)
  })
  const set = priors
    .command('set')
    .summary('believe something else')
    .description("Says what this shelf believes beforehand; 'usual' takes it back.")
    .argument('<KEY>', 'as priors list shows it')
    .argument('<VALUE...>', "with its doubt, as '245 ± 8 g'")
    .addHelpText('after', exits)
    .action(async (key: string, value: string[], given: Given) => {
      const { priorsSetCommand } = await import('./priors-commands.ts')
      await priorsSetCommand(key, value.join(' '), given)
    })
  addOptions(set, catalogueOptions)
}

const group = (all: Command, name: string, summary: string): Command =>
  all
    .command(name)
    .summary(summary)
    .description(`${summary[0]?.toUpperCase() ?? ''}${summary.slice(1)}.`)

const verb = (
  of: Command,
  name: 'add' | 'change',
  what: string,
  argument: string,
  action: (name: string, given: Given) => Promise<void>,
  options: readonly ValueOption[],
): void => {
  const command = of
    .command(name)
    .summary(name === 'add' ? `sets up ${what}` : `changes ${what}`)
    .description(
      name === 'add' ? `Sets up ${what}.` : `Changes ${what}; what is not told stays as it was.`,
    )
    .argument(`<${argument}>`, name === 'add' ? 'its name' : 'by name or id')
    .addHelpText('after', exits)
    .action(action)
  addOptions(command, [...options, ...catalogueOptions])
}

const list = (of: Command, what: string, action: (given: Given) => Promise<void>): void => {
  const command = of
    .command('list')
    .summary(`lists ${what}`)
    .description(`Lists ${what}.`)
    .addHelpText('after', exits)
    .action(action)
  addOptions(command, catalogueOptions)
}
