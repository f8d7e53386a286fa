import type { Basis, Highs, ModelData } from 'highs'
import type {
  LinearAnswer,
  LinearBasis,
  LinearModel,
  LinearQuestion,
  LinearSolver,
} from '../match/index.ts'

/** Loading takes a tenth of a second, so it is done once, and not before it is needed. */
let loading: Promise<Highs> | undefined

const load = async (): Promise<Highs> => {
  // Its types are those of its CommonJS twin, which stands one `default` deeper.
  const loadHighs = (await import('highs')).default as unknown as () => Promise<Highs>
  return loadHighs()
}

/**
 * HiGHS, in this thread: while it solves nothing else runs.
 *
 * @param isStopped - asked now and then while whole numbers are sought; true ends the search with the
 *   best there is
 * @see https://highs.dev
 */
export const highsSolver =
  (isStopped: () => boolean = () => false): LinearSolver =>
  async (question) => {
    loading ??= load()
    const highs = await loading
    try {
      return answerOf(highs, question, isStopped)
    } catch (failure) {
      // Its presolve fails on some programs that are solved without it.
      if (!(failure instanceof highs.errors.HighsError)) throw failure
      return answerOf(highs, question, isStopped, 'off')
    }
  }

const answerOf = (
  highs: Highs,
  { model, relaxed = false, basis, start, limit_s }: LinearQuestion,
  isStopped: () => boolean,
  presolve: 'choose' | 'off' = 'choose',
): LinearAnswer =>
  highs.withModel(dataOf(highs, model, relaxed), (solving): LinearAnswer => {
    const { modelStatus, callbackType } = highs.constants
    solving.options.set({
      output_flag: false,
      presolve,
      // Loads are whole: what is proven best is not to be given away for speed.
      mip_rel_gap: 0,
      mip_abs_gap: 1e-6,
      ...(limit_s !== undefined && { time_limit: Math.max(limit_s, 0.001) }),
    })
    if (start && !relaxed) solving.setSolution({ colValue: start })
    if (basis && relaxed) {
      const { lower, basic } = highs.constants.basisStatus
      solving.setBasis({
        colStatus: grown(basis.columns, model.cost.length, lower),
        rowStatus: grown(basis.rows, model.rowLower.length, basic),
      })
    }
    solving.run({
      [callbackType.mipInterrupt]: (event) => {
        if (isStopped()) event.interrupt()
      },
    })
    const status = solving.getModelStatus()
    if (status === modelStatus.infeasible || status === modelStatus.unboundedOrInfeasible) {
      return {
        status: 'infeasible',
        value: Infinity,
        bound: Infinity,
        columns: null,
        rowDual: null,
        basis: null,
      }
    }
    const isOptimal = status === modelStatus.optimal
    const { colValue, rowDual } = solving.getSolution()
    // 2: a feasible point.
    const isFeasible = Number(solving.info.get('primal_solution_status')) === 2
    const value = isFeasible ? solving.getObjectiveValue() : Infinity
    const bound = relaxed ? (isOptimal ? value : -Infinity) : solving.info.get('mip_dual_bound')
    return {
      status: isOptimal ? 'optimal' : 'stopped',
      value,
      bound: Math.min(Number(bound), value),
      columns: isFeasible ? colValue : null,
      rowDual: relaxed && isOptimal ? rowDual : null,
      basis: relaxed && isOptimal ? basisOf(solving.getBasis()) : null,
    }
  })

const basisOf = ({ colStatus, rowStatus }: Basis): LinearBasis => ({
  columns: colStatus,
  rows: rowStatus,
})

const grown = (old: Int32Array, size: number, status: number): Int32Array => {
  const all = new Int32Array(size).fill(status)
  all.set(old)
  return all
}

const dataOf = ({ constants }: Highs, model: LinearModel, relaxed: boolean): ModelData => {
  const { cost, lower, upper, whole, rowLower, rowUpper, starts, rows, values } = model
  const { continuous, integer } = constants.variableType
  return {
    numCols: cost.length,
    numRows: rowLower.length,
    colCost: cost,
    colLower: lower,
    colUpper: upper,
    rowLower,
    rowUpper,
    matrix: {
      format: 'csc',
      numRows: rowLower.length,
      numCols: cost.length,
      starts,
      indices: rows,
      values,
    },
    ...(!relaxed && { integrality: Array.from(whole, (is) => (is ? integer : continuous)) }),
  }
}
