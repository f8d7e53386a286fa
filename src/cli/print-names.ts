/** Names by which a file in a folder is taken for a print: those of a zip's members, packed or not. */
const printName = /\.(?:(?:gcode|gco|g|nc)(?:\.gz)?|zip)$/i

/** Whether a file of a folder is to be read. Names that begin with a dot are hidden, as drafts are. */
export const isPrintName = (name: string): boolean => !name.startsWith('.') && printName.test(name)

const naturally = new Intl.Collator('en', { numeric: true })

/** `plate 2` before `plate 10`; names that look alike in the order of their letters. */
export const byName = (a: string, b: string): number =>
  naturally.compare(a, b) || (a < b ? -1 : a > b ? 1 : 0)
