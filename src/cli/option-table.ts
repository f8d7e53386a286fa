/** An option that takes a value, as it is written and explained. */
export interface ValueOption<Name extends string = string> {
  /** Without the dashes. */
  readonly name: Name
  /** What stands for the value in the help; absent for a switch. */
  readonly value?: string
  readonly help: string
  /** True where it may be given several times. */
  readonly repeated?: true
}

/** Name of an option that tells something of a reel. */
export type ReelOptionName =
  | 'reel'
  | 'gross'
  | 'extra'
  | 'tare'
  | 'tare-of-make'
  | 'carrier'
  | 'gross-new'
  | 'label'
  | 'new'
  | 'material'
  | 'density'
  | 'diameter'
  | 'calipers'
  | 'cut'
  | 'linear-density'
  | 'winding'
  | 'net'
  | 'length'
  | 'scale'

/** What can be told of a reel; the same names are keys of `--tool`. */
export const reelOptions: readonly ValueOption<ReelOptionName>[] = [
  { name: 'reel', value: 'ID', help: 'a reel of the ledger: all that is known of it is taken' },
  { name: 'gross', value: 'MASS', help: 'the reel on the scale now, as 422g' },
  { name: 'extra', value: 'MASS', help: 'what else was on the scale with it: a holder, a bag' },
  { name: 'tare', value: 'MASS', help: 'its own carrier, weighed empty' },
  { name: 'tare-of-make', value: 'MASS', help: 'an empty carrier of the same make, weighed' },
  {
    name: 'carrier',
    value: 'KIND',
    help: 'what the carrier is: plastic, cardboard, refill-core, metal',
  },
  { name: 'gross-new', value: 'MASS', help: 'the reel on the scale when it was new' },
  { name: 'label', value: 'MASS', help: 'net mass on its label, as 1kg' },
  { name: 'new', help: 'nothing has been fed from it yet' },
  { name: 'material', value: 'NAME', help: 'PLA, PETG, …' },
  { name: 'density', value: 'DENSITY', help: 'from its sheet, as 1.24g/cm3' },
  { name: 'diameter', value: 'LENGTH', help: 'nominal, as 1.75mm (the default) or 2.85mm' },
  { name: 'calipers', value: 'PAIRS', help: "diameters measured, as '1.74x1.76, 1.75x1.77'" },
  { name: 'cut', value: 'LENGTH=MASS', help: 'a piece cut off and weighed, as 1m=2.98g' },
  { name: 'linear-density', value: 'G/M', help: 'grams per metre, where known directly' },
  {
    name: 'winding',
    value: 'SIZES',
    help: "without a scale: 'hub=80mm, outer=150mm, width=60mm'",
  },
  { name: 'net', value: 'MASS', help: 'filament on it, if you know it, as 172g' },
  { name: 'length', value: 'LENGTH', help: 'filament on it, if you know it, as 57m' },
  {
    name: 'scale',
    value: 'MODEL',
    help: "the scale: 'step=1g, repeat=0.5g, gain=0.1%' or 'class=III, step=1g'",
  },
]

/** The reels of a print with several tools. */
export const toolOptions: readonly ValueOption[] = [
  {
    name: 'tool',
    value: 'REEL',
    help: 'the reel of one tool; same keys, may be repeated',
    repeated: true,
  },
]

/** A picture of the print. */
export const pictureOptions: readonly ValueOption[] = [
  { name: 'picture', value: 'FILE', help: 'draw the print from the side, into a .svg or .png' },
  { name: 'layer', value: 'N', help: 'of the picture: this layer, from above, instead' },
  { name: 'overwrite', help: 'of the picture: take the place of a file that is there' },
]

/** Which print of a zip. */
export const memberOption: ValueOption = {
  name: 'member',
  value: 'NAME',
  help: 'which print of a zip with several',
}

/** Of every command that takes folders. */
export const subfoldersOption: ValueOption = {
  name: 'subfolders',
  help: 'of a folder, the folders in it, too',
}

/** How the file is to be understood. */
export const fileOptions: readonly ValueOption[] = [
  {
    name: 'firmware',
    value: 'ID',
    help: 'firmware of the printer: community, community-1, meta, host, textfile',
  },
  { name: 'e-unit', value: 'UNIT', help: 'unit of E in the file: mm or mm3' },
  { name: 'e-mode', value: 'MODE', help: 'how E counts in the file: absolute or relative' },
  { name: 'made-for', value: 'LENGTH', help: 'filament diameter the file was made for' },
]

/** Which reels of the shelf come into question. */
const filterOptions: readonly ValueOption[] = [
  { name: 'colour', value: 'WORDS', help: 'of the shelf, only reels of this colour' },
  { name: 'make', value: 'WORDS', help: 'of the shelf, only reels of this maker or make' },
  { name: 'place', value: 'WORDS', help: 'of the shelf, only reels that stand there' },
]

/** What `check` takes to ask the shelf. */
export const shelfOptions: readonly ValueOption[] = [
  { name: 'printer', value: 'NAME', help: 'a printer of the ledger: what it feeds is learnt' },
  ...filterOptions,
  { name: 'all', help: 'of the shelf, list the reels that are short, too' },
]

/** What the printer does beyond what the file asks. */
export const printerOptions: readonly ValueOption[] = [
  {
    name: 'feed-factor',
    value: 'FACTOR',
    help: "what it feeds per millimetre asked, '1.01±0.005'",
  },
  {
    name: 'start-allowance',
    value: 'LENGTH',
    help: 'filament used before the file begins, as 40mm',
  },
  { name: 'tail', value: 'LENGTH', help: 'last length that can not be printed, as 0.5m' },
]

/** What is to be checked, and how. */
export const checkOptions: readonly ValueOption[] = [
  { name: 'draw', value: 'LENGTH', help: 'a length instead of a file, as 62m' },
  { name: 'mass', value: 'MASS', help: 'a stated mass instead of a file, as 185g' },
  memberOption,
  {
    name: 'stretch',
    value: 'N',
    help: 'only the part between planned reel changes; 1 is up to the first',
  },
  {
    name: 'start',
    value: 'WHEN',
    help: "when it is started, as 21:30, now or '2026-03-01 21:30': times become moments",
  },
  {
    name: 'in-turn',
    help: 'of several prints: on one printer one after another, the first at --start',
  },
  { name: 'confidence', value: 'SHARE', help: 'how sure a call must be, as 95% (the default)' },
]

/** Options of `read` about the reel, used to say grams. */
export const massOptions: readonly ValueOption[] = reelOptions.filter(({ name }) =>
  ['material', 'density', 'diameter'].includes(name),
)

/** What a make is known by, beside its name. */
export const makeOptions: readonly ValueOption[] = [
  { name: 'maker', value: 'NAME', help: 'who makes it' },
  { name: 'material', value: 'NAME', help: 'PLA, PETG, …' },
  { name: 'diameter', value: 'LENGTH', help: 'nominal: 1.75mm (the default) or 2.85mm' },
  { name: 'carrier', value: 'KIND', help: 'plastic, cardboard, refill-core or metal' },
]

/** What goes with a weighing. */
export const weighingOptions: readonly ValueOption[] = [
  { name: 'scale', value: 'NAME', help: 'the scale it stood on; the only one unless given' },
  { name: 'extra', value: 'MASS', help: 'what else was on the scale: a holder, a bag' },
  { name: 'accept', help: 'record it though it is surprising' },
]

/** Where the ledger is. */
export const dataOption: ValueOption = {
  name: 'data',
  value: 'FOLDER',
  help: 'folder of the ledger; else REELRECKON_DATA, else the usual place for data',
}

/** Options of every command that writes a fact down. */
export const recordOptions: readonly ValueOption[] = [
  { name: 'at', value: 'WHEN', help: "when it happened, as 2026-03-01 or '2026-03-01 18:30'" },
  { name: 'by', value: 'PERSON', help: 'who says so' },
  { name: 'note', value: 'TEXT', help: 'a note of one line' },
  dataOption,
  { name: 'json', help: 'write JSON' },
]

/** Options of every command that sets up or lists what the ledger speaks of. */
export const catalogueOptions: readonly ValueOption[] = [
  dataOption,
  { name: 'json', help: 'write JSON' },
]

/** Options of every command that only asks the ledger. */
export const askOptions: readonly ValueOption[] = [
  dataOption,
  { name: 'ledger', value: 'FILE', help: 'facts from a file of lines instead; nothing is kept' },
  { name: 'json', help: 'write JSON' },
]

/** Options of `pause`, beside those of the file. */
export const pauseOptions: readonly ValueOption[] = [
  {
    name: 'after-layer',
    value: 'N',
    help: 'the layer that is finished before the stop; may be repeated',
    repeated: true,
  },
  { name: 'to', value: 'FILE', help: 'the copy to make' },
  {
    name: 'for',
    value: 'PURPOSE',
    help: 'change (the default): another reel; pause: anything else',
  },
  { name: 'note', value: 'TEXT', help: 'what to do at it, written beside the command' },
  { name: 'printer', value: 'NAME', help: 'a printer of the ledger: its firmware is taken' },
  { name: 'member', value: 'NAME', help: 'which print of a zip with several' },
  { name: 'overwrite', help: 'take the place of what is there' },
]

/** What is told of a waiting print. */
export const waitingOptions: readonly ValueOption[] = [
  { name: 'name', value: 'NAME', help: "what it is called; the file's name unless given" },
  { name: 'copies', value: 'N', help: 'how many are wanted in all; 1 unless given' },
  { name: 'material', value: 'NAME', help: 'what it is to be made of; any unless given' },
  {
    name: 'colour',
    value: 'NAME',
    help: 'a colour that will do; may be repeated; any unless given',
    repeated: true,
  },
  {
    name: 'tool',
    value: 'WANTED',
    help: "of several tools, as 'T0: material=PLA, colour=red or blue'; may be repeated",
    repeated: true,
  },
  {
    name: 'on-printer',
    value: 'NAME',
    help: 'a printer that may do it; may be repeated; any unless given',
    repeated: true,
  },
  { name: 'due', value: 'WHEN', help: "as 2026-12-24 or '2026-12-24 18:00'" },
  { name: 'importance', value: 'N', help: 'larger comes first; 0 unless given' },
  {
    name: 'changes',
    value: 'N',
    help: 'it may be changed from reel to reel so often in mid-print',
  },
  {
    name: 'change-after',
    value: 'LAYERS',
    help: "layers after which a change would not show, as '40-120, 150'",
  },
  { name: 'takes', value: 'TIME', help: "how long one copy takes, as '3h 20min'" },
  { name: 'note', value: 'TEXT', help: 'a note of one line' },
]

/** Options of `match`. */
export const matchOptions: readonly ValueOption[] = [
  { name: 'why', help: 'for each print why this reel and not the obvious other' },
  { name: 'notes', help: 'the note to hang by the printer for each change in mid-print' },
  { name: 'confidence', value: 'SHARE', help: 'how sure each print must be, as 95% (the default)' },
  { name: 'useful', value: 'MASS', help: 'less than this left on a reel is a stub; else learnt' },
  { name: 'limit', value: 'TIME', help: 'how long to look for better plans; 10s unless given' },
  {
    name: 'lock',
    value: 'PRINT=REEL',
    help: "as 'knob=K7RMY', 'knob#2=K7RMY', 'two T1=K7RMY'; may be repeated",
    repeated: true,
  },
  {
    name: 'forbid',
    value: 'REEL',
    help: "a reel that must not be taken, or 'REEL for PRINT'; may be repeated",
    repeated: true,
  },
  {
    name: 'new-reel',
    value: 'MAKE',
    help: "as if it were there: 'make=Kittiwake PLA, colour=red'; may be repeated",
    repeated: true,
  },
  { name: 'drop', value: 'PRINT', help: 'as if it did not wait; may be repeated', repeated: true },
  {
    name: 'busy',
    value: 'PRINTER=WHEN',
    help: "a printer at work until then, and with what, as 'the Gull=23:30' or 'the Gull=23:30, print=knob.gcode, reel=K7RMY', where another took over with 'reel=P3QX6, after-layer=17' behind it; may be repeated",
    repeated: true,
  },
  { name: 'keep', help: 'keep the plan: the next one differs from it as little as it can' },
]
