import type { CheckShelfRequest, ShelfCheckJson } from '../contract/index.ts'
import type { ShelfView } from '../service/index.ts'

const mostKept = 100

/**
 * Answers about the whole shelf, kept as long as the view they rest on holds: every page that shows a
 * print asks the same of a large shelf. A print is known by its hash, so it is the same print.
 */
export class ShelfAnswers {
  readonly #kept = new WeakMap<ShelfView, Map<string, ShelfCheckJson>>()

  find(view: ShelfView, asked: CheckShelfRequest): ShelfCheckJson | undefined {
    return this.#kept.get(view)?.get(JSON.stringify(asked))
  }

  keep(view: ShelfView, asked: CheckShelfRequest, answer: ShelfCheckJson): void {
    const ofView = this.#kept.get(view) ?? new Map<string, ShelfCheckJson>()
    this.#kept.set(view, ofView)
    if (ofView.size >= mostKept) ofView.clear()
    ofView.set(JSON.stringify(asked), answer)
  }
}
