import { DomainError } from '../units/index.ts'
import type { MatchCopy, MatchSlate } from './slate.ts'

/**
 * Figures that no slate can have are refused at the door: what comes of them would look like a plan.
 *
 * @throws DomainError `confidence_out_of_range`, `useful_negative`, `hours_out_of_range`,
 *   `importance_not_finite`, `length_negative`, `no_tasks`, `no_printers`, `id_twice`, `changes_not_positive`
 */
export const checkSlate = ({
  copies,
  printers,
  confidence = 0.95,
  useful_g = 0,
}: MatchSlate): void => {
  if (!(confidence > 0.5 && confidence < 1)) {
    throw new DomainError(
      'confidence_out_of_range',
      `a confidence lies between 0.5 and 1, not at ${confidence}`,
    )
  }
  if (!isAmount(useful_g)) {
    throw new DomainError('useful_negative', `${useful_g} g can not be the least that is useful`)
  }
  for (const { id, free_h = 0 } of printers) {
    if (!isAmount(free_h)) {
      throw new DomainError('hours_out_of_range', `${id} can not be free in ${free_h} h`)
    }
  }
  for (const copy of copies) checkCopy(copy)
}

const isAmount = (figure: number): boolean => figure >= 0 && figure < Infinity

const checkCopy = ({
  id,
  tasks,
  printers,
  changes,
  importance = 0,
  due_h = 0,
  duration_h = 0,
}: MatchCopy): void => {
  if (tasks.length === 0) throw new DomainError('no_tasks', `${id} asks nothing of any reel`)
  if (printers.length === 0) throw new DomainError('no_printers', `no printer may do ${id}`)
  if (new Set(tasks.map(({ tool }) => tool)).size < tasks.length) {
    throw new DomainError('id_twice', `${id} has a tool twice`)
  }
  if (!tasks.every(({ draw }) => draw.every(({ peak_mm }) => isAmount(peak_mm)))) {
    throw new DomainError('length_negative', `${id} has a draw that is no length`)
  }
  if (!isAmount(duration_h)) {
    throw new DomainError('hours_out_of_range', `${id} can not take ${duration_h} h`)
  }
  // What was due before now is late; what is due at infinity never is.
  if (Number.isNaN(due_h)) throw new DomainError('hours_out_of_range', `${id} is due at no hour`)
  if (!Number.isFinite(importance)) {
    throw new DomainError(
      'importance_not_finite',
      `${id} can not have an importance of ${importance}`,
    )
  }
  const { most = 1 } = changes ?? {}
  if (!(Number.isInteger(most) && most >= 1)) {
    throw new DomainError('changes_not_positive', `${id} can not allow ${most} changes`)
  }
}
