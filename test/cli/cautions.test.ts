import { expect, test } from 'vitest'
import { helpText } from '../../src/cli/help-text.ts'
import { hotMachineCaution } from '../../src/contract/index.ts'

test('the command line says of a hot machine what the app says', () => {
  expect(helpText.replaceAll(/\s+/g, ' ')).toContain(hotMachineCaution)
})
