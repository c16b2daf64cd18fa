/** How many ways there are to choose `size` of `count`. */
export function subsetCount(count: number, size: number): number {
  let ways = 1;
  for (let chosen = 0; chosen < size; chosen++) ways = (ways * (count - chosen)) / (chosen + 1);
  return Math.round(ways);
}

/** Calls `visit` with every choice of `size` of `count` places, in order; the array is used again each time. */
export function eachSubset(count: number, size: number, visit: (places: readonly number[]) => void): void {
  const places = Array.from({ length: size }, (_, index) => index);
  for (;;) {
    visit(places);
    let movable = size - 1;
    while (movable >= 0 && places[movable] === count - size + movable) movable--;
    if (movable < 0) return;
    places[movable]!++;
    for (let next = movable + 1; next < size; next++) places[next] = places[next - 1]! + 1;
  }
}
