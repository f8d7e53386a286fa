const times = (many: number, one: string, more: string): string =>
  many === 1 ? `1 ${one}` : `${many} ${more}`

/** Words of the sheets that list printers, makes, materials, scales and people. */
export const rowWords = {
  one: {
    printer: 'printer',
    make: 'make',
    material: 'material',
    scale: 'scale',
    person: 'person',
  },
  none: {
    printer: 'No printer has been set up. With one, what it feeds can be learnt.',
    make: 'No make has been set up. The first reel that comes brings its own.',
    material: 'No material of your own. Those of the built-in table need no row here.',
    scale: 'No scale has been set up.',
    person: 'Nobody has been set up. Facts are then written down without a name.',
  },
  add: (kind: string): string => `Add a ${kind}`,
  adding: (kind: string): string => `A new ${kind}`,
  changing: (name: string): string => `What is known of ${name}`,
  changeOf: (name: string): string => `Change ${name}`,
  retireOf: (name: string): string => `Retire ${name}`,
  useAgainOf: (name: string): string => `Take into use again: ${name}`,
  retired: 'no longer in use',
  kept: (name: string): string => `Kept: ${name}.`,
  nothingChanged: 'Nothing was changed.',
  headings: ['Quantity', 'Told', 'Learnt by the ledger'],
  notTold: '–',
  nothingLearnt: 'nothing yet',
  ownFacts: 'Empty carriers weighed, and data sheets',
  noOwnFacts:
    'None is written down of it alone. What was weighed of a reel stands on the sheet of that reel.',
  needed: 'This is needed.',
  taken: (kind: string): string => `There is a ${kind} of that name already. Choose another name.`,
  noDoubt: 'Write what is printed there, without ±. How far makers fill off it is reckoned with.',
  doubtNeeded:
    'No printer feeds exactly what it is asked. Say how far off it may be, as 1.006 ± 0.005.',
  notPositive: 'Write what is above 0.',
  usual: 'not told',
  ofPrints: (prints: number): string => times(prints, 'print', 'prints'),
  ofReels: (reels: number, carriers: number): string =>
    carriers === 0
      ? times(reels, 'reel', 'reels')
      : `${times(reels, 'reel', 'reels')}, ${times(carriers, 'empty carrier weighed', 'empty carriers weighed')}`,
  ofWeighings: (weighings: number): string => times(weighings, 'weighing', 'weighings'),
  from: (what: string): string => `from ${what}`,
  fields: {
    name: 'Name',
    maker: 'Maker',
    note: 'Note',
    firmware: 'Firmware',
    feed_factor: 'Feed factor',
    start_allowance_mm: 'Start allowance',
    tail_mm: 'Tail',
    change_mm: 'Planned change of reels',
    material: 'Material',
    nominal_diameter_mm: 'Diameter',
    label_net_g: 'Net mass on its labels',
    carrier: 'Carrier',
    tare: 'Tare',
    overfill: 'Wound over the label',
    density_g_per_cm3: 'Density',
    linear_density: 'Linear density',
    water_share: 'Water at rest in room air',
    step_g: 'Smallest step',
    repeatability_g: 'Repeats to',
    gain: 'Slope may be off by',
    gainFound: 'Slope is off by',
  },
  hints: {
    feed_factor:
      'What it feeds for each millimetre asked, as 1.006 ± 0.005. Leave empty to have it learnt.',
    start_allowance_mm: 'Filament used before each file begins, as 40 mm.',
    tail_mm: 'Last length that can not be printed, as 0.5 m.',
    change_mm:
      'What loading and purging take of the reel that comes in, as 200 ± 60 mm; that unless told.',
    nominal_diameter_mm: 'As 1.75 mm; that unless told.',
    label_net_g: 'As 1 kg or 2.2 lb.',
    density_g_per_cm3: 'As 1.24 g/cm³, or 1.24 ± 0.01.',
    water_share: 'Share of the dry mass, as 0.4 %; none unless told.',
    step_g: 'As 1 g or 0.05 oz; what the last figure of its display counts.',
    repeatability_g: 'As 0.5 g or 0.02 oz; half a step unless told.',
    gain: 'Share of the load, as 0.1 %; that unless told.',
  },
  carriers: {
    plastic: 'plastic',
    cardboard: 'cardboard',
    'refill-core': 'core for refilling',
    metal: 'metal',
  },
} as const
