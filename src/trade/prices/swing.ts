import { Decimal } from "../money";

/** How far a result moves between the low and the high of one input: |high - low|. */
export function swing(low: number, high: number): number {
  return new Decimal(high).minus(low).abs().toNumber();
}

/** The widest swing first, equals in the order given; what has no swing comes last. */
export function widestFirst<T>(items: readonly T[], swingOf: (item: T) => number | undefined): T[] {
  return (
    items
      .map((item, place) => ({ item, place, swing: swingOf(item) ?? -1 }))
      // Engines before 2019 need not sort stably, so the place decides between equals.
      .sort((a, b) => b.swing - a.swing || a.place - b.place)
      .map(({ item }) => item)
  );
}
