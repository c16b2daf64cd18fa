/** Of parting: twice and more what chance ever takes. */
const MOST_ROUNDS = 80;

/** The value that would stand at a place if they were sorted. They are only parted around it, in a few passes. */
export function inOrder(values: Float64Array, place: number): number {
  let [from, to] = [0, values.length - 1];
  for (let round = 0; from < to; round++) {
    if (round > MOST_ROUNDS) return values.sort()[place] as number;
    const middle = values[(from + to) >> 1] as number;
    let [low, high] = [from, to];
    while (low <= high) {
      while ((values[low] as number) < middle) low++;
      while ((values[high] as number) > middle) high--;
      if (low > high) break;
      const value = values[low] as number;
      values[low++] = values[high] as number;
      values[high--] = value;
    }
    if (place <= high) to = high;
    else if (place >= low) from = low;
    else break;
  }
  return values[place] as number;
}
