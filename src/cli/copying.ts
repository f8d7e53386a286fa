import type { CopyProgress } from '../store/index.ts'
import type { Outcome } from '../units/index.ts'
import { exitCode, Fault } from './fault.ts'
import { Progress } from './progress.ts'

/** Size of a page of the ledger's file, bytes: what SQLite takes unless told. */
const page = 4096

/**
 * Copies a ledger with its progress shown on a terminal.
 *
 * @throws Fault: exit code 4, 3 where the backup is none, or cancelled
 */
export const copying = async <T>(
  name: string,
  copy: (progress: (done: CopyProgress) => void) => Promise<Outcome<T>>,
): Promise<T> => {
  const shown = new Progress(process.stderr)
  try {
    const outcome = await copy(({ phase, done, of }) => {
      shown.at(done * page, of * page, phase === 'checking' ? `checking ${name}` : name)
    })
    if (outcome.ok) return outcome.value
    const { code, message } = outcome.refusal
    throw new Fault(exitOfCopy[code] ?? exitCode.ledger, { code, message })
  } finally {
    shown.end()
  }
}

const exitOfCopy: Readonly<Record<string, number>> = {
  cancelled: exitCode.cancelled,
  target_exists: exitCode.usage,
  no_target_folder: exitCode.usage,
}
