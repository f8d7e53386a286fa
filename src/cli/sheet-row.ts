import { wrap } from './wrap.ts'

/** A figure of the working: what it is, the figure, and a remark that may need several lines. */
export const row = (label: string, figure: string, remark: string): string =>
  wrap(remark, `  ${label.padEnd(10)}${figure.padEnd(15)}  `, ' '.repeat(29)).trimEnd()
