/**
 * Solves matrix·x = right by elimination with row exchanges; both are overwritten and the answer is left in `right`.
 * False when the matrix is singular to working accuracy.
 */
export function solveInPlace(matrix: Float64Array[], right: Float64Array): boolean {
  const size = right.length;
  for (let column = 0; column < size; column++) {
    let pivotRow = column;
    for (let row = column + 1; row < size; row++) {
      if (Math.abs(matrix[row]![column]!) > Math.abs(matrix[pivotRow]![column]!)) pivotRow = row;
    }
    [matrix[column], matrix[pivotRow]] = [matrix[pivotRow]!, matrix[column]!];
    [right[column], right[pivotRow]] = [right[pivotRow]!, right[column]!];
    const pivots = matrix[column]!;
    const pivot = pivots[column]!;
    if (!(Math.abs(pivot) > 1e-300)) return false;
    for (let row = column + 1; row < size; row++) {
      const values = matrix[row]!;
      const factor = values[column]! / pivot;
      if (factor === 0) continue;
      for (let place = column + 1; place < size; place++) values[place]! -= factor * pivots[place]!;
      right[row]! -= factor * right[column]!;
    }
  }
  for (let row = size - 1; row >= 0; row--) {
    const values = matrix[row]!;
    for (let place = row + 1; place < size; place++) right[row]! -= values[place]! * right[place]!;
    right[row]! /= values[row]!;
  }
  return true;
}
