import type { Command } from 'commander'
import type { ValueOption } from './option-table.ts'

/** Gives a command its options; one with a value is taken once. */
export const addOptions = (command: Command, options: readonly ValueOption[]): void => {
  for (const { name, value, help, repeated } of options) {
    if (value === undefined) command.option(`--${name}`, help)
    else if (repeated === true) command.option(`--${name} <${value}>`, help, collect)
    else command.option(`--${name} <${value}>`, help, onlyOnce(command, name))
  }
}

/** Of two values for one option the person did not say which holds. */
const onlyOnce =
  (command: Command, name: string) =>
  (value: string, before: string | undefined): string => {
    if (before === undefined) return value
    return command.error(`error: --${name} is given twice: give the better figure only`, {
      code: 'commander.optionTwice',
      exitCode: 2,
    })
  }

const collect = (value: string, before: readonly string[] = []): readonly string[] => [
  ...before,
  value,
]
