import type { CheckShelfRequest } from '../contract/index.ts'
import type { ShelfView } from '../service/index.ts'
import type { PrintHeading } from '../store/index.ts'

/** Answers, of about 40 kB, and questions, of about 200 B. */
const mostKept = 100
const mostRemembered = 1000

/** What an answer rests on beside the view. */
interface Question {
  readonly asked: CheckShelfRequest
  /** The print asked about: kept anew, by another reader or name, it may be answered otherwise. */
  readonly print: PrintHeading | undefined
}

/** What was answered about one view, and what was asked about it before. */
interface OfView {
  readonly answers: Map<string, Uint8Array<ArrayBuffer>>
  readonly asked: Set<string>
}

/**
 * Answers about the whole shelf, kept as long as the view they rest on holds: every page that shows a
 * print asks the same of a large shelf. Kept is what is asked a second time. Of a shelf that is asked
 * about one print after another, keeping every answer for a while takes as long as working it out:
 * the collector comes for them again and again.
 */
export class ShelfAnswers {
  readonly #views = new WeakMap<ShelfView, OfView>()

  /** @returns JSON as it is sent */
  find(view: ShelfView, question: Question): Uint8Array<ArrayBuffer> | undefined {
    return this.#views.get(view)?.answers.get(JSON.stringify(question))
  }

  keep(view: ShelfView, question: Question, answer: Uint8Array<ArrayBuffer>): void {
    const ofView = this.#views.get(view) ?? { answers: new Map(), asked: new Set() }
    this.#views.set(view, ofView)
    const { answers, asked } = ofView
    const key = JSON.stringify(question)
    if (asked.delete(key)) {
      if (answers.size >= mostKept) answers.clear()
      answers.set(key, answer)
    } else {
      if (asked.size >= mostRemembered) asked.clear()
      asked.add(key)
    }
  }
}
