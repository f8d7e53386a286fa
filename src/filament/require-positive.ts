import { DomainError, type Measured } from '../units/index.ts'

/** @throws DomainError with `code` unless the value is finite and more than zero. */
export const requirePositive = ({ value }: Measured, code: string): void => {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
    throw new DomainError(code, `${value} is not a finite number above zero`)
  }
}
