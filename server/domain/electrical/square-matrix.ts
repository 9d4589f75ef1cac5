import type { Complex } from '#domain/units/complex.ts'
import { divide, multiply, subtract } from '#domain/units/complex.ts'

/** Row-major square matrix of complex numbers. */
export type ComplexMatrix = Complex[][]

export function entry<Value>(
  matrix: readonly (readonly Value[])[],
  row: number,
  column: number,
): Value {
  const value = matrix[row]?.[column]
  if (value === undefined) throw new Error(`Matrix has no entry (${row}, ${column}).`)
  return value
}

/**
 * Kron reduction: removes the rows and columns from `keep` on, whose voltage is zero,
 * one at a time: z_ij − z_in z_nj / z_nn.
 */
export function kronReduce(matrix: ComplexMatrix, keep: number): ComplexMatrix {
  let reduced = matrix
  while (reduced.length > keep) {
    const last = reduced.length - 1
    const full = reduced
    reduced = full.slice(0, last).map((row, i) =>
      row.slice(0, last).map((value, j) => {
        const through = multiply(entry(full, i, last), entry(full, last, j))
        return subtract(value, divide(through, entry(full, last, last)))
      }),
    )
  }
  return reduced
}

/** Inverse of a real symmetric positive definite matrix (potential coefficients) by Gauss–Jordan. */
export function invertPositiveDefinite(matrix: readonly (readonly number[])[]): number[][] {
  const size = matrix.length
  let work = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))])
  for (let column = 0; column < size; column++) {
    const pivot = entry(work, column, column)
    if (!(pivot > 0)) throw new Error('Matrix is not positive definite.')
    const pivotRow = (work[column] ?? []).map((value) => value / pivot)
    work = work.map((row, i) =>
      i === column
        ? pivotRow
        : row.map((value, j) => value - entry(work, i, column) * (pivotRow[j] ?? 0)),
    )
  }
  return work.map((row) => row.slice(size))
}
