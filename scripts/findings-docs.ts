// Writes the table of findings into docs/method/findings.md: node scripts/findings-docs.ts
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { findingCatalogue } from '../src/print/finding-catalogue.ts'
import { markdownTable } from './markdown-table.ts'

const page = fileURLToPath(new URL('../docs/method/findings.md', import.meta.url))
const begin = '<!-- node scripts/findings-docs.ts -->\n'
const end = '<!-- end -->'

/** Every finding of the catalogue, by code. */
export const findingsTable = (): string => {
  const rows = Object.entries(findingCatalogue)
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([code, [severity, message]]) => [`\`${code}\``, severity, message])
  return `\n${markdownTable(['code', 'severity', 'what the person reads'], rows)}\n\n`
}

/** The page with the table as the catalogue has it now. */
export const findingsPage = (): string => {
  const text = readFileSync(page, 'utf8')
  const from = text.indexOf(begin) + begin.length
  return text.slice(0, from) + findingsTable() + text.slice(text.indexOf(end, from))
}

if (import.meta.main) writeFileSync(page, findingsPage())
