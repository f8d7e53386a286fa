import type { DemoPrint } from '../demo-print.ts'
import { batteryDoor } from './battery-door.ts'
import { gasketSet } from './gasket-set.ts'
import { hingePin } from './hinge-pin.ts'
import { knob } from './knob.ts'
import { tackleBox } from './tackle-box.ts'
import { twoToolPart } from './two-tool-part.ts'
import { vase } from './vase.ts'

/** Every demo print, smallest first. */
export const demoPrints: readonly DemoPrint[] = [
  hingePin,
  batteryDoor,
  gasketSet,
  knob,
  twoToolPart,
  vase,
  tackleBox,
]
