import type { Finding } from './finding.ts'
import { type FindingCode, findingCatalogue } from './finding-catalogue.ts'

/** Collects findings: the first place and the number of times of each code. */
export class FindingLog {
  readonly #found = new Map<string, { finding: Finding; count: number }>()

  note(code: FindingCode, byte: number, line: number, addition = ''): void {
    const known = this.#found.get(code)
    if (known !== undefined) {
      known.count++
      return
    }
    const [severity, message] = findingCatalogue[code]
    this.add({ code, severity, byte, line, count: 1, message: message + addition })
  }

  /** Takes a finding worded elsewhere; a code already known is only counted. */
  add(finding: Finding): void {
    const known = this.#found.get(finding.code)
    if (known === undefined) this.#found.set(finding.code, { finding, count: finding.count })
    else known.count += finding.count
  }

  has(code: FindingCode): boolean {
    return this.#found.has(code)
  }

  /** In the order of their first place. */
  list(): Finding[] {
    return Array.from(this.#found.values(), ({ finding, count }) =>
      Object.assign({}, finding, { count }),
    ).toSorted((a, b) => a.byte - b.byte || (a.code < b.code ? -1 : 1))
  }
}
