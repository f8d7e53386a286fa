/** Said wherever a print is begun, on a screen as on the command line. */
export const hotMachineCaution =
  'Hot parts burn, and a printer at work wants someone near: a verdict does not change that.'

/** Said wherever a change of reels is advised. */
export const changeCaution =
  'Take care: at a change the nozzle and bed are hot and the machine may move. Stay with it, and go by its maker’s instructions.'
