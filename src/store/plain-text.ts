/**
 * Text as a column of any database takes it: what a name of a file may have and PostgreSQL's text may
 * not (a zero, half a surrogate pair) is escaped as in JSON, and with it quotes and backslashes. Other
 * text stays as it is.
 */
export const plainText = (text: string): string => JSON.stringify(text).slice(1, -1)

/** The text of which `plainText` made this. */
export const textOfPlain = (plain: string): string => JSON.parse(`"${plain}"`) as string
