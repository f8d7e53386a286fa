/** A linear program, some of its columns whole numbers; its value is to be least. */
export interface LinearModel {
  /** One entry a column. */
  readonly cost: Float64Array
  readonly lower: Float64Array
  readonly upper: Float64Array
  /** 1 for a column that is a whole number, 0 for one that need not be. */
  readonly whole: Uint8Array
  /** One entry a row; ±Infinity where there is no bound. */
  readonly rowLower: Float64Array
  readonly rowUpper: Float64Array
  /** Column by column: where each begins in the two that follow, and where the last ends. */
  readonly starts: Int32Array
  readonly rows: Int32Array
  readonly values: Float64Array
}

/** Where a relaxed answer lies, in the solver's own words. */
export interface LinearBasis {
  readonly columns: Int32Array
  readonly rows: Int32Array
}

/** What to do with a model. */
export interface LinearQuestion {
  readonly model: LinearModel
  /** Columns that need not be whole, whatever the model says: the answer then has `rowDual`. */
  readonly relaxed?: boolean
  /**
   * Where to begin with a relaxed question: the basis of an answer to the same with fewer columns, all
   * new ones at the end, or fewer rows, likewise.
   */
  readonly basis?: LinearBasis
  /** Columns of an answer that is known, to begin with. */
  readonly start?: Float64Array
  /** When to end with the best there is, s. */
  readonly limit_s?: number
}

/** The answer of a solver. */
export interface LinearAnswer {
  /** `stopped`: it ran out of time; `columns` are the best it found, or null. */
  readonly status: 'optimal' | 'stopped' | 'infeasible'
  /** Value of the columns; Infinity without. */
  readonly value: number
  /** Nothing can be less. */
  readonly bound: number
  readonly columns: Float64Array | null
  /** What one more of each row's bound adds to the value; of a relaxed question only. */
  readonly rowDual: Float64Array | null
  /** Of a relaxed question, to go on from. */
  readonly basis: LinearBasis | null
}

/** Solves linear programs with whole-number columns; handed in, so that it may run in another thread. */
export type LinearSolver = (question: LinearQuestion) => Promise<LinearAnswer>
