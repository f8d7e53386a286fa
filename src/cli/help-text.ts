/**
 * What `reelreckon --help` shows. It stands here as text because loading commander takes as long as
 * starting Node does, and help must come at once; a test holds it to what commander would show.
 */
export const helpText: string = `Usage: reelreckon [options] [command]

Will this reel finish this print? Enough, close or short, with the chance.

Options:
  --version                 show the version
  --help                    show this help

Commands:
  read [options] <FILE...>  what a print draws
  check [options] [FILE]    will this reel finish it
  reel                      the reels on the shelf

Examples:
  reelreckon read box.gcode
  reelreckon check box.gcode --gross 422g --tare 250g --material PLA

reelreckon check --help shows what can be told of a reel.
Hot parts burn, and a printer at work wants someone near: a verdict does not
change that.
`
