import fc from "fast-check";
import { describe, test } from "vitest";
import { COUNT_SYSTEMS } from "../../../src/tables/count-systems";
import { texOf } from "../../../src/trade/counts/counts";
import { washedCount } from "../../../src/trade/counts/washed-count";
import { expectClose } from "../../support/closeness";

const anySystem = fc.constantFrom(...COUNT_SYSTEMS);

const anyCount = fc.double({ min: 0.01, max: 1e4, noNaN: true });

const anyTakeUp = fc.double({ min: -0.5, max: 0.5, noNaN: true });

describe("washing", () => {
  test("keeps what is not lost, in the length that is left", () => {
    fc.assert(
      fc.property(
        anyCount,
        anySystem,
        anyTakeUp,
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (count, system, shrink, lost) => {
          const washed = texOf(washedCount(count, system, shrink, lost), system);
          expectClose(washed * (1 - shrink), texOf(count, system) * (1 - lost));
        },
      ),
    );
  });
});
