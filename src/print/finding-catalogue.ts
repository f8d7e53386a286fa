import type { Finding } from './finding.ts'

/** Stable codes. */
export type FindingCode =
  | 'byte_order_mark'
  | 'lone_cr'
  | 'bracket_on_move'
  | 'lower_case'
  | 'dense_e'
  | 'doubled_point'
  | 'duplicate_word'
  | 'two_commands'
  | 'inch_mode'
  | 'tool_macro'
  | 'volumetric'
  | 'volumetric_ignored_by_host'
  | 'firmware_retraction'
  | 'auto_retraction'
  | 'loop'
  | 'mixing'
  | 'feed_not_followed'
  | 'macro_calls'
  | 'meta_commands'
  | 'planned_change'
  | 'ends_job'
  | 'long_line'
  | 'long_feed'
  | 'maybe_cut_short'
  | 'nothing_drawn'

type Entry = readonly [severity: Finding['severity'], message: string]

/**
 * Every finding the reader can make about the code itself, with the sentence a person reads. Those
 * whose sentence carries figures are worded where the figures are (bead.ts, families-differ.ts).
 */
export const findingCatalogue: Readonly<Record<FindingCode, Entry>> = {
  byte_order_mark: [
    'warn',
    'The file starts with a byte-order mark. Some boards lose the first command to it: export without one.',
  ],
  lone_cr: [
    'warn',
    'Lines end with CR alone. Most firmware reads such a file as one line: export with LF ends.',
  ],
  bracket_on_move: [
    'warn',
    'A move carries a bracketed remark. Some firmware reads the letters inside it as words: take the remarks out.',
  ],
  lower_case: [
    'note',
    'Moves are written in lower case. Some boards ignore such lines; counted here as drawn.',
  ],
  dense_e: [
    'warn',
    'An E stands directly after a digit (X10E5). One firmware family reads that as an exponent: export with spaces.',
  ],
  doubled_point: [
    'warn',
    'An E number has two points. Read up to the second point: check how the file was made.',
  ],
  duplicate_word: ['warn', 'A line has two E words. Firmware differs in which one counts.'],
  two_commands: [
    'warn',
    'Two commands that matter stand on one line. Some firmware runs both, some only the last.',
  ],
  inch_mode: [
    'warn',
    'The file switches to inches (G20). Firmware differs in what that does to E, and some stop with an error.',
  ],
  tool_macro: [
    'note',
    'Tool numbers of 100 and more are machine macros; they select no reel here.',
  ],
  volumetric: ['note', 'The file says that E is mm³ (M200); turned into length with its diameter.'],
  volumetric_ignored_by_host: [
    'warn',
    'The file says that E is mm³ (M200). Firmware of the host family ignores that and would feed about 2.4 times too much.',
  ],
  firmware_retraction: [
    'note',
    'Retraction is left to the firmware (G10/G11). Its length is not in the file; a pair nets out.',
  ],
  auto_retraction: [
    'note',
    'The firmware is told to turn bare E retractions into its own (M209 S1); read as written.',
  ],
  loop: ['note', 'The file repeats a part of itself; counted as often as it runs.'],
  mixing: [
    'warn',
    'The nozzle mixes several filaments. The split between reels is not read: totals are for all of them together.',
  ],
  feed_not_followed: [
    'warn',
    'A command changes or moves the feeder in a way that is not followed here: the draw may differ.',
  ],
  macro_calls: [
    'note',
    'The file calls macros kept on the machine. What they feed is not in the file: give it as a start allowance.',
  ],
  meta_commands: [
    'warn',
    'The file has conditions or loops that only the machine can decide. Moves inside are counted once.',
  ],
  planned_change: [
    'note',
    'The file itself asks for another reel on the way. The draw here is for the whole print.',
  ],
  ends_job: [
    'note',
    'A command that ends the job on some firmware stands before the end; reading went on.',
  ],
  long_line: [
    'warn',
    'A move line is longer than 95 bytes before its remark. Some boards drop the rest of such a line.',
  ],
  long_feed: [
    'note',
    'A single move feeds more than 200 mm. Some boards refuse that; counted here as drawn.',
  ],
  maybe_cut_short: [
    'warn',
    'The file ends in the middle of printing, without a line end: it may be cut short. Export or copy it again.',
  ],
  nothing_drawn: ['warn', 'No move in the file feeds filament: it draws nothing.'],
}
