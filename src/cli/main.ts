#!/usr/bin/env node
import * as nodeModule from 'node:module'

// Before anything large is loaded; absent before Node 22.
nodeModule.enableCompileCache?.()
const [first, ...more] = process.argv.slice(2)
if (first === '--help' && more.length === 0) {
  const { helpText } = await import('./help-text.ts')
  process.stdout.write(helpText)
} else {
  const { start } = await import('./program.ts')
  await start(process.argv)
}
