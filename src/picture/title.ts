import type { TextShape } from './drawing.ts'
import { lettersWide } from './letter-strokes.ts'
import { letterings } from './look.ts'

const height = 26
const left = 12

/** Room that a title takes above a drawing, px. */
export const titleHeight = (title: string | undefined): number => (title === undefined ? 0 : height)

/** Room that it takes from edge to edge, px. */
export const titleWidth = (title: string | undefined): number =>
  title === undefined ? 0 : 2 * left + lettersWide(title, letterings.label.size)

/** The title of a sheet, in its upper left corner. */
export const titleShapes = (title: string | undefined): readonly TextShape[] =>
  title === undefined
    ? []
    : [{ kind: 'text', lettering: 'label', x: left, y: 22, text: title, anchor: 'start' }]
