import { expect } from "vitest";

/** Asserts agreement within a relative tolerance. */
export function expectClose(got: number, wanted: number, relative = 1e-12): void {
  expect(Number.isFinite(got), `${got} is no number`).toBe(true);
  expect(Math.abs(got - wanted), `${got} against ${wanted}`).toBeLessThanOrEqual(relative * Math.abs(wanted));
}
