/**
 * The families of printer firmware that read the same file differently. Labels are our own: they
 * describe how the firmware is set up, so that a person can recognise theirs.
 */
export type FirmwareFamilyId = 'community' | 'community-1' | 'meta' | 'host' | 'textfile'

/** How G90/G91 and M82/M83 decide whether E is relative. */
export type ExtruderMode =
  /** G90/G91 overwrite what M82/M83 said. */
  | 'linked'
  /** E is relative when either G91 or M83 is in force. */
  | 'either'
  /** Only M82/M83 decide. */
  | 'separate'

/** What decides the draw and differs between families. */
export interface FirmwareFamily {
  readonly id: FirmwareFamilyId
  /** One line by which a person tells their own. */
  readonly description: string
  readonly extruderMode: ExtruderMode
  /** A bare `G92` (no words): does logical E become 0? */
  readonly bareG92ZeroesE: boolean
  /** `G92 E` without a number: does logical E become 0? */
  readonly g92BareEZeroesE: boolean
  /** What a change of tool does to logical E. */
  readonly toolChange: 'keeps' | 'own-register' | 'zeroes-and-resets-flow'
  /** Does G20 scale E by 25.4? */
  readonly inchScalesE: boolean
  /** In mm³ mode G20 scales E by 25.4³ instead. */
  readonly inchCubesVolumetric: boolean
  readonly volumetric: 'S-switch' | 'D-only' | 'colon-list' | 'P-extruder' | 'none'
  readonly flow: 'T-or-active' | 'D-drive-or-tool' | 'active-resets' | 'active'
  /** `G10 S…` is a tool setting, not a retraction. */
  readonly g10WithSIsSetting: boolean
  readonly retraction: 'M207-M208' | 'M207-R' | 'named' | 'M207-M208-S'
  /** Firmware retraction goes through the flow factor. */
  readonly retractionScaled: boolean
  /** In relative mode `E1:2` feeds drive 0 and drive 1. */
  readonly splitsLists: boolean
  /** A second G or M on the line starts a second command. */
  readonly severalCommands: boolean
  readonly duplicateWord: 'first' | 'last'
  /** `1E5` is one number; elsewhere it is 1 and then the word E5. */
  readonly exponents: boolean
  /** `(` drops the rest of the line. */
  readonly bracketEndsLine: boolean
}

/**
 * The five families, reference first. Where two differ in nothing that decides the draw of a
 * file, the reader reports them as one.
 *
 * @see docs/method/draw.md, "Where firmware families differ"
 */
export const firmwareFamilies: readonly FirmwareFamily[] = [
  {
    id: 'community',
    description: 'the large community firmware, current line (2.x), set up by a header file',
    extruderMode: 'linked',
    bareG92ZeroesE: false,
    g92BareEZeroesE: false,
    toolChange: 'keeps',
    inchScalesE: true,
    inchCubesVolumetric: true,
    volumetric: 'S-switch',
    flow: 'T-or-active',
    g10WithSIsSetting: false,
    retraction: 'M207-M208',
    retractionScaled: false,
    splitsLists: false,
    severalCommands: false,
    duplicateWord: 'last',
    exponents: false,
    bracketEndsLine: false,
  },
  {
    id: 'community-1',
    description: 'its 1.x line and most older 8-bit boards',
    extruderMode: 'either',
    bareG92ZeroesE: false,
    g92BareEZeroesE: false,
    toolChange: 'keeps',
    inchScalesE: true,
    inchCubesVolumetric: true,
    volumetric: 'D-only',
    flow: 'T-or-active',
    g10WithSIsSetting: false,
    retraction: 'M207-M208',
    retractionScaled: false,
    splitsLists: false,
    severalCommands: false,
    duplicateWord: 'last',
    exponents: false,
    bracketEndsLine: false,
  },
  {
    id: 'meta',
    description: '32-bit firmware set up by machine code itself, with if/while/var commands',
    extruderMode: 'separate',
    bareG92ZeroesE: false,
    g92BareEZeroesE: false,
    toolChange: 'keeps',
    inchScalesE: true,
    inchCubesVolumetric: false,
    volumetric: 'colon-list',
    flow: 'D-drive-or-tool',
    g10WithSIsSetting: true,
    retraction: 'M207-R',
    retractionScaled: false,
    splitsLists: true,
    severalCommands: true,
    duplicateWord: 'first',
    exponents: true,
    bracketEndsLine: false,
  },
  {
    id: 'host',
    description:
      'firmware that runs on a small computer beside the board, NAME PARAM=VALUE commands',
    extruderMode: 'either',
    bareG92ZeroesE: true,
    g92BareEZeroesE: false,
    toolChange: 'zeroes-and-resets-flow',
    inchScalesE: false,
    inchCubesVolumetric: false,
    volumetric: 'none',
    flow: 'active-resets',
    g10WithSIsSetting: false,
    retraction: 'named',
    retractionScaled: true,
    splitsLists: false,
    severalCommands: false,
    duplicateWord: 'last',
    exponents: false,
    bracketEndsLine: false,
  },
  {
    id: 'textfile',
    description: '32-bit firmware set up by one text file on the card',
    extruderMode: 'linked',
    bareG92ZeroesE: true,
    g92BareEZeroesE: true,
    toolChange: 'own-register',
    inchScalesE: false,
    inchCubesVolumetric: false,
    volumetric: 'P-extruder',
    flow: 'active',
    g10WithSIsSetting: false,
    retraction: 'M207-M208-S',
    retractionScaled: false,
    splitsLists: false,
    severalCommands: true,
    duplicateWord: 'first',
    exponents: false,
    bracketEndsLine: true,
  },
]
