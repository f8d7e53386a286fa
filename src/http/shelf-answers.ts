import type { CheckShelfRequest } from '../contract/index.ts'
import type { ShelfView } from '../service/index.ts'
import type { PrintHeading } from '../store/index.ts'

const mostKept = 100

/** What an answer rests on beside the view. */
interface Question {
  readonly asked: CheckShelfRequest
  /** The print asked about: kept anew, by another reader or name, it may be answered otherwise. */
  readonly print: PrintHeading | undefined
}

/**
 * Answers about the whole shelf, kept as long as the view they rest on holds: every page that shows a
 * print asks the same of a large shelf.
 */
export class ShelfAnswers {
  readonly #kept = new WeakMap<ShelfView, Map<string, Uint8Array<ArrayBuffer>>>()

  /** @returns JSON as it is sent */
  find(view: ShelfView, question: Question): Uint8Array<ArrayBuffer> | undefined {
    return this.#kept.get(view)?.get(JSON.stringify(question))
  }

  keep(view: ShelfView, question: Question, answer: Uint8Array<ArrayBuffer>): void {
    const ofView = this.#kept.get(view) ?? new Map<string, Uint8Array<ArrayBuffer>>()
    this.#kept.set(view, ofView)
    if (ofView.size >= mostKept) ofView.clear()
    ofView.set(JSON.stringify(question), answer)
  }
}
