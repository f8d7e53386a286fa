/**
 * What `reelreckon --help` shows. It stands here as text because loading commander takes as long as
 * starting Node does, and help must come at once; a test holds it to what commander would show.
 */
export const helpText: string = `Usage: reelreckon [options] [command]

Will this reel finish this print? Enough, close or short, with the chance.

Options:
  --version                          show the version
  --help                             show this help

Commands:
  read [options] <FILE...>           what a print draws
  check [options] [FILE...]          will this reel finish it
  slate                              prints that wait: add, list, change, …
  match [options]                    which reel for which waiting print
  pause [options] <FILE>             a copy of a print that stops after a layer
  reel                               reels on the shelf: add, …
  weigh [options] <WORDS...>         a reel, or an empty carrier, stood on the
                                     scale
  draw [options] [FILE]              a print, or a length, was fed from a reel
  measure [options] [REEL]           something of a reel's filament was measured
  trim [options] <REEL> <AMOUNT...>  filament was cut off and thrown away
  empty [options] <REEL>             what was left on a reel was taken off
  run-dry [options] <REEL>           a reel ran out at the printer
  dry [options] <REEL>               a reel was dried
  move [options] <REEL> <PLACE>      a reel was put somewhere else
  retire [options] <REEL>            a reel leaves the shelf
  put-right [options] <FACT>         something was recorded wrong
  make                               makes of filament: add, change, list, show
  printer                            printers: add, change, list
  scale                              scales: add, change, list
  person                             people who record: add, list
  material                           materials of your own: add, list
  priors                             what is believed beforehand: list, set
  backup [options] <FILE>            copy the ledger into one file
  restore [options] <FILE>           put a backup in the place of the ledger
  export [options] [FILE]            the whole ledger as lines of JSON, or as
                                     tables
  import [options] <FILE>            take over a ledger, or a table of reels
  watch [options] <FOLDER>           reads prints as they arrive in a folder
  serve [options]                    the app in a browser, and its API

Examples:
  reelreckon read box.gcode
  reelreckon check box.gcode --gross 422g --tare 250g --material PLA

reelreckon check --help shows what can be told of a reel.
Hot parts burn, and a printer at work wants someone near: a verdict does not
change that.
`
