import { DomainError } from '../units/index.ts'

/**
 * Lower triangular factor of a symmetric positive definite matrix, in its place; what stands above
 * the diagonal is left as it was.
 *
 * @param matrix - row-major, size × size
 * @throws DomainError `not_positive_definite`
 */
export const factorise = (matrix: Float64Array, size: number): void => {
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j]!
      for (let l = 0; l < j; l++) sum -= matrix[i * size + l]! * matrix[j * size + l]!
      if (i > j) matrix[i * size + j] = sum / matrix[j * size + j]!
      else if (sum > 0) matrix[i * size + i] = Math.sqrt(sum)
      else throw new DomainError('not_positive_definite', `pivot ${i} is ${sum}`)
    }
  }
}

/** ln of the determinant of a matrix from its factor. */
export const logDeterminant = (factor: Float64Array, size: number): number => {
  let sum = 0
  for (let i = 0; i < size; i++) sum += 2 * Math.log(factor[i * size + i]!)
  return sum
}

/** The inverse of a matrix from its factor, both triangles filled: row-major, size × size. */
export const inverseFromFactor = (factor: Float64Array, size: number): Float64Array => {
  const root = new Float64Array(size * size)
  for (let j = 0; j < size; j++) {
    root[j * size + j] = 1 / factor[j * size + j]!
    for (let i = j + 1; i < size; i++) {
      let sum = 0
      for (let l = j; l < i; l++) sum -= factor[i * size + l]! * root[l * size + j]!
      root[i * size + j] = sum / factor[i * size + i]!
    }
  }
  const inverse = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0
      for (let l = i; l < size; l++) sum += root[l * size + i]! * root[l * size + j]!
      inverse[i * size + j] = sum
      inverse[j * size + i] = sum
    }
  }
  return inverse
}
