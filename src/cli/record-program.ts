import type { Command } from 'commander'
import { addOptions } from './add-options.ts'
import { fileOptions, recordOptions, type ValueOption, weighingOptions } from './option-table.ts'

type Given = Record<string, unknown>

const exits = `

Exit code: 0 recorded, 2 wrong usage, 4 the ledger can not be read or written.`

const weighExits = `

Exit code: 0 recorded, 10 surprising and not recorded, 2 wrong usage, 4 the
ledger can not be read or written.`

/** The commands that say what happened to a reel. */
export const addRecordProgram = (all: Command): void => {
  addWeigh(all)
  addDraw(all)
  addMeasure(all)
  addBefallings(all)
  addPutRight(all)
}

const acceptOption: ValueOption = { name: 'accept', help: 'record it though it is surprising' }

const addWeigh = (all: Command): void => {
  const weigh = all
    .command('weigh')
    .summary('a reel, or an empty carrier, stood on the scale')
    .description(
      'Records a weighing, after a look whether it agrees with what is known of the reel.',
    )
    .argument('<WORDS...>', 'REEL MASS, or with --make an empty carrier: MASS')
    .addHelpText(
      'after',
      `
Examples:
  reelreckon weigh K7RMY 1262g
  reelreckon weigh K7RMY 1300g --extra 38g             on its holder
  reelreckon weigh K7RMY 251g --empty                  its own carrier
  reelreckon weigh K7RMY 251g --empty --another        another like its own
  reelreckon weigh --make 'Kittiwake PLA' --empty 251g  any carrier of a make
  reelreckon weigh --make 'Kittiwake PLA' --label 3kg --empty 640g  held 3 kg${weighExits}`,
    )
    .action(async (words: string[], given: Given) => {
      const { weighCommand } = await import('./weigh-command.ts')
      await weighCommand(words, given)
    })
  addOptions(weigh, [
    ...weighingOptions,
    { name: 'empty', help: 'it was the empty carrier' },
    { name: 'another', help: "with --empty: not the reel's own carrier, but another like it" },
    { name: 'make', value: 'NAME', help: 'whose carrier it was, where no reel is named' },
    {
      name: 'label',
      value: 'MASS',
      help: 'with --make: net mass on the label of what the carrier held, as 3kg',
    },
    ...recordOptions,
  ])
}

const addDraw = (all: Command): void => {
  const draw = all
    .command('draw')
    .summary('a print, or a length, was fed from a reel')
    .description('Records what a print took off its reels, finished or not.')
    .argument('[FILE]', 'machine code, plain, gzip or zip; - is standard input')
    .addHelpText(
      'after',
      `
Examples:
  reelreckon draw box.gcode --reel K7RMY
  reelreckon draw box.gcode --reel K7RMY --took 3h40m
  reelreckon draw box.gcode --reel K7RMY --stopped-at layer=120
  reelreckon draw two.gcode --tool 'T0: reel=K7RMY' --tool 'T1: reel=P3QX6'
  reelreckon draw --length 12.3m --reel K7RMY          fed by hand${weighExits}`,
    )
    .action(async (file: string | undefined, given: Given) => {
      const { drawCommand } = await import('./draw-command.ts')
      await drawCommand(file, given)
    })
  addOptions(draw, [
    { name: 'reel', value: 'ID', help: 'the reel that fed it' },
    {
      name: 'tool',
      value: 'REEL',
      help: "the reel of one tool, as 'T0: reel=ID', or 'T0: reel=ID, after-layer=17' where it took over; may be repeated",
      repeated: true,
    },
    { name: 'printer', value: 'NAME', help: 'the printer; the only one unless given' },
    {
      name: 'stopped-at',
      value: 'PLACE',
      help: 'where it ended: layer=120, share=40% or height=31mm; finished unless given',
    },
    { name: 'took', value: 'TIME', help: 'how long it took from its start to its end, as 3h40m' },
    { name: 'ran-dry', help: 'the reel ran out in it, where it stopped' },
    {
      ...acceptOption,
      help: 'record it though it ran dry, or gave more than it held, surprisingly, or the file may be cut short or in other units',
    },
    { name: 'length', value: 'LENGTH', help: 'a length instead of a file, as 12.3m' },
    { name: 'print', value: 'HASH', help: 'a print that was kept, by the beginning of its hash' },
    { name: 'member', value: 'NAME', help: 'which print of a zip with several' },
    { name: 'waiting', value: 'NAME', help: 'the waiting print of which one copy is done' },
    { name: 'not-of-slate', help: 'no waiting print is done by it' },
    ...fileOptions,
    ...recordOptions,
  ])
}

const addMeasure = (all: Command): void => {
  const measure = all
    .command('measure')
    .summary("something of a reel's filament was measured")
    .description('Records what was measured of a reel, or with --make what a sheet states.')
    .argument('[REEL]', 'id of the reel')
    .addHelpText(
      'after',
      `
Examples:
  reelreckon measure K7RMY --calipers '1.74x1.76, 1.75x1.77'
  reelreckon measure K7RMY --cut 2m=5.96g              mind your fingers
  reelreckon measure K7RMY --air 2.31g --water 0.43g
  reelreckon measure --make 'Kittiwake PLA' --density 1.24 --source 'sheet 2026'${weighExits}`,
    )
    .action(async (reel: string | undefined, given: Given) => {
      const { measureCommand } = await import('./measure-command.ts')
      await measureCommand(reel, given)
    })
  addOptions(measure, [
    { name: 'calipers', value: 'PAIRS', help: "diameters, as '1.74x1.76, 1.75x1.77'" },
    { name: 'cut', value: 'LENGTH=MASS', help: 'a piece cut off and weighed, as 2m=5.96g' },
    { name: 'scale', value: 'NAME', help: 'the scale that it was weighed on' },
    { name: 'density', value: 'DENSITY', help: 'as 1.24g/cm3' },
    { name: 'linear-density', value: 'G/M', help: 'grams per metre' },
    { name: 'winding', value: 'SIZES', help: "'hub=80mm, outer=150mm, width=60mm'" },
    { name: 'air', value: 'MASS', help: 'a piece weighed in air …' },
    { name: 'water', value: 'MASS', help: '… and hung in water' },
    { name: 'water-temperature', value: 'TEMP', help: 'of the water; 22 °C unless given' },
    { name: 'make', value: 'NAME', help: 'what a sheet says of a make: --density, --tare' },
    { name: 'tare', value: 'MASS', help: 'of a make: what its carriers weigh by its sheet' },
    { name: 'source', value: 'TEXT', help: 'of a make: which sheet' },
    acceptOption,
    ...recordOptions,
  ])
}

const addBefallings = (all: Command): void => {
  const trim = all
    .command('trim')
    .summary('filament was cut off and thrown away')
    .description('Records filament that was cut off and thrown away.')
    .argument('<REEL>', 'id of the reel')
    .argument('<AMOUNT...>', 'a mass or a length, as 12g or 4m')
    .addHelpText('after', exits)
    .action(async (reel: string, amount: string[], given: Given) => {
      const { trimCommand } = await import('./befall-commands.ts')
      await trimCommand(reel, amount.join(' '), given)
    })
  addOptions(trim, [acceptOption, ...recordOptions])
  const empty = all
    .command('empty')
    .summary('what was left on a reel was taken off')
    .description('Records that what was left was taken off, unmeasured. The carrier stays.')
    .argument('<REEL>', 'id of the reel')
    .addHelpText('after', exits)
    .action(async (reel: string, given: Given) => {
      const { emptyCommand } = await import('./befall-commands.ts')
      await emptyCommand(reel, given)
    })
  addOptions(empty, recordOptions)
  const runDry = all
    .command('run-dry')
    .summary('a reel ran out at the printer')
    .description('Records that a reel ran out at the printer: what is left is its tail.')
    .argument('<REEL>', 'id of the reel')
    .addHelpText('after', weighExits)
    .action(async (reel: string, given: Given) => {
      const { runDryCommand } = await import('./befall-commands.ts')
      await runDryCommand(reel, given)
    })
  addOptions(runDry, [
    { name: 'tail', value: 'LENGTH', help: 'what was left and could not be printed, as 0.5m' },
    acceptOption,
    ...recordOptions,
  ])
  const dry = all
    .command('dry')
    .summary('a reel was dried')
    .description('Records that a reel was dried. Weigh it when it has cooled.')
    .argument('<REEL>', 'id of the reel')
    .addHelpText('after', exits)
    .action(async (reel: string, given: Given) => {
      const { dryCommand } = await import('./befall-commands.ts')
      await dryCommand(reel, given)
    })
  addOptions(dry, [
    { name: 'hours', value: 'H', help: 'how long' },
    { name: 'temperature', value: 'TEMP', help: 'how warm, as 45C' },
    { name: 'remaining', value: 'SHARE', help: 'water left over dry mass, where known' },
    ...recordOptions,
  ])
  const move = all
    .command('move')
    .summary('a reel was put somewhere else')
    .description('Records where a reel stands.')
    .argument('<REEL>', 'id of the reel')
    .argument('<PLACE>', 'where it stands now')
    .addHelpText('after', exits)
    .action(async (reel: string, place: string, given: Given) => {
      const { moveCommand } = await import('./befall-commands.ts')
      await moveCommand(reel, place, given)
    })
  addOptions(move, [
    { name: 'air', value: 'KIND', help: 'the air it stands in from now on: room or dry' },
    ...recordOptions,
  ])
  const retire = all
    .command('retire')
    .summary('a reel leaves the shelf')
    .description('Records that a reel left the shelf: given away, thrown away, used up.')
    .argument('<REEL>', 'id of the reel')
    .addHelpText('after', exits)
    .action(async (reel: string, given: Given) => {
      const { retireCommand } = await import('./befall-commands.ts')
      await retireCommand(reel, given)
    })
  addOptions(retire, [{ name: 'reason', value: 'TEXT', help: 'why' }, ...recordOptions])
}

const addPutRight = (all: Command): void => {
  const putRight = all
    .command('put-right')
    .summary('something was recorded wrong')
    .description(
      'Declares a fact void, and records what is right. Both stay readable. To make the fact hold again, put the put-right right.',
    )
    .argument('<FACT>', 'id of the fact, as it was told when it was recorded')
    .addHelpText(
      'after',
      `
Examples:
  reelreckon put-right 4HK-7PQ-2WY --reason 'misread' --mass 1263g
  reelreckon put-right 4HK-7PQ-2WY --reason 'stood on its holder' --extra 38g
  reelreckon put-right 4HK-7PQ-2WY --reason 'was the other one' --reel P3QX6
  reelreckon put-right 4HK-7PQ-2WY --reason 'recorded twice'${weighExits}`,
    )
    .action(async (fact: string, given: Given) => {
      const { putRightCommand } = await import('./put-right-command.ts')
      await putRightCommand(fact, given)
    })
  addOptions(putRight, [
    { name: 'reason', value: 'TEXT', help: 'why it does not hold' },
    { name: 'mass', value: 'MASS', help: 'the right mass; of a reel that arrived, when new' },
    {
      name: 'extra',
      value: 'MASS',
      help: 'what else was on the scale in a weighing; 0g: nothing was',
    },
    { name: 'length', value: 'LENGTH', help: 'the right length' },
    {
      name: 'stopped-at',
      value: 'PLACE',
      help: 'where a print ended: layer=120, share=40% or height=31mm',
    },
    { name: 'reel', value: 'ID', help: 'the reel it was' },
    { name: 'make', value: 'NAME', help: 'the make it is, of a reel that arrived' },
    {
      name: 'label',
      value: 'MASS',
      help: 'the net mass on the label of a reel that arrived, or of what an empty carrier held',
    },
    { name: 'colour', value: 'NAME', help: 'the colour of a reel that arrived' },
    { name: 'srgb', value: '#RRGGBB', help: 'the colour on a screen' },
    {
      name: 'part-used',
      value: 'ANSWER',
      help: 'yes or no: had a reel that arrived been fed from',
    },
    { name: 'price', value: 'PRICE', help: "what was paid for a reel that arrived: '21.90 EUR'" },
    { name: 'lot', value: 'TEXT', help: 'the lot of a reel that arrived' },
    acceptOption,
    ...recordOptions,
  ])
}
