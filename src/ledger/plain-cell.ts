/** A cell of a table: a text, a number, or '' for nothing. */
export type Cell = string | number

/**
 * A text that no spreadsheet takes for a formula: one that begins with =, +, -, @, a tab or a carriage
 * return gets an apostrophe before it. Numbers are handed over as numbers and keep their sign.
 */
export const plainCell = (cell: Cell): Cell =>
  typeof cell === 'string' && /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell
