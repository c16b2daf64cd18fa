import { describe, expect, test } from "vitest";
import {
  absent,
  at,
  counted,
  dividedByZero,
  impossible,
  LONGEST_MESSAGE,
  refuse,
  Refusal,
  said,
  saying,
  shortened,
} from "../../src/trade/refusal";

function thrownBy(call: () => never): Refusal {
  try {
    return call();
  } catch (thrown) {
    return thrown as Refusal;
  }
}

describe("a refusal", () => {
  test("names what is refused, what came and what is allowed, and its kind", () => {
    const kinds = [refuse, absent, impossible, dividedByZero].map((how) => thrownBy(() => how("loss", "2", "below 1")));
    expect(kinds.map(({ kind }) => kind)).toEqual(["argument", "absent", "impossible", "division"]);
    for (const refusal of kinds) expect(refusal.message).toBe("loss is 2; below 1");
  });

  test("is an Error to whoever asks, and takes down no trace of calls", () => {
    const refusal = thrownBy(() => refuse("loss", "2", "below 1"));
    expect(refusal).toBeInstanceOf(Error);
    expect(refusal).toBeInstanceOf(Refusal);
    expect(Object.hasOwn(refusal, "stack")).toBe(false);
  });

  test("tells places by list, index and field, in its texts too", () => {
    const refusal = thrownBy(() => refuse(at("stages", 2, "loss"), "2", said`as in ${at("rates", 3)}, row ${1}`));
    expect(refusal.message).toBe("stages[2].loss is 2; as in rates[3], row 1");
    expect([String(at("recipes", 0)), String(at("recipes", 0, 4))]).toEqual(["recipes[0]", "recipes[0][4]"]);
  });

  test("is never longer than a card shows, and says where it was cut", () => {
    const message = saying("text", "x".repeat(200), "short");
    expect(message).toHaveLength(LONGEST_MESSAGE);
    expect(message.endsWith("…")).toBe(true);
    expect([shortened("twenty-four characters!!"), shortened("twenty-five characters!!!")]).toEqual([
      "twenty-four characters!!",
      "twenty-five characters!…",
    ]);
  });

  test("counts as a person says it", () => {
    expect([0, 1, 2].map((count) => counted(count, "row"))).toEqual(["0 rows", "1 row", "2 rows"]);
  });
});
