import { expect, test } from 'vitest'
import { textTable } from '../../src/cli/text-table.ts'

test('where the sheet is too narrow words are cut, and figures never', () => {
  const head = ['name', 'feed', 'pace', 'draws']
  const row = ['the printer at the window', '1.004 ± 0.006 (learnt)', '1.132 ± 0.021', '1234 m']
  const lines = textTable(head, [row], { width: 66, right: [3] }).split('\n')
  expect(lines[1]).toMatch(/^ {2}the .*…/)
  for (const figure of row.slice(1)) expect(lines[1]).toContain(figure)
  // Even where words alone do not make the room.
  const narrow = textTable(head, [row], { width: 40, right: [3] }).split('\n')
  for (const figure of row.slice(1)) expect(narrow[1]).toContain(figure)
})
