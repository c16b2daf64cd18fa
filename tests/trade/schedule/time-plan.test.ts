import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { timePlan, type Task } from "../../../src/trade/schedule";
import { refusalOf } from "../../support/refusals";

const NAMES = ["scour", "card", "comb", "dye", "spin", "ply", "wind"];

/** Nets without circles: a task waits only for some of those that come before it in a hidden order. */
const net: fc.Arbitrary<Task[]> = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 127 })), { minLength: 1, maxLength: 7 })
  .chain((drawn) => {
    const tasks = drawn.map(([days, waits], place) => ({
      task: NAMES[place] as string,
      days,
      after: NAMES.slice(0, place)
        .filter((_, other) => (waits >> other) & 1)
        .join(", "),
    }));
    return fc.shuffledSubarray(tasks, { minLength: tasks.length, maxLength: tasks.length });
  });

/** Every way through the net from a task onwards (or back), by walking them all: the days of the longest. */
function longest(tasks: readonly Task[], from: Task, onwards: boolean): number {
  const waits = (one: Task, other: Task): boolean => one.after.split(", ").includes(other.task);
  const next = tasks.filter((other) => (onwards ? waits(other, from) : waits(from, other)));
  return from.days + Math.max(0, ...next.map((other) => longest(tasks, other, onwards)));
}

/** Is it a day of work by the calendar of the language and not by the sheet's numbers? */
function isWorked(day: number, holidays: readonly number[]): boolean {
  const weekday = new Date(Date.UTC(1899, 11, 30) + day * 86400000).getUTCDay();
  return weekday !== 0 && weekday !== 6 && !holidays.includes(day);
}

/** The so-manieth day worked from a date on, by looking at one day after the other. */
function walked(date: number, number: number, step: 1 | -1, holidays: readonly number[]): number {
  let [day, seen] = [date - step, 0];
  while (seen < number) {
    day += step;
    if (isWorked(day, holidays)) seen++;
  }
  return day;
}

const START = 46083;

describe("a plan from a start", () => {
  test("has the earliest and latest days of the longest ways through the net, all walked", () => {
    fc.assert(
      fc.property(net, (tasks) => {
        const whole = Math.max(...tasks.map((task) => longest(tasks, task, true)));
        const times = timePlan(tasks, START, "from", [], "calendar");
        tasks.forEach((task, place) => {
          const done = longest(tasks, task, false);
          const ends = whole - longest(tasks, task, true) + task.days;
          const { earliestFinish, latestFinish, earliestStart, latestStart, float } = times[place] as (typeof times)[0];
          const dateOf = (days: number): number => START + Math.max(days, 1) - 1;
          expect([earliestFinish, latestFinish, float]).toEqual([dateOf(done), dateOf(ends), ends - done]);
          const [start, last] = task.days === 0 ? [done, ends] : [done - task.days + 1, ends - task.days + 1];
          expect([earliestStart, latestStart]).toEqual([dateOf(start), dateOf(last)]);
        });
      }),
      { numRuns: 500 },
    );
  });

  test("counted in working days has the dates that a walk over the calendar finds", () => {
    fc.assert(
      fc.property(
        net,
        fc.integer({ min: 40000, max: 50000 }),
        fc.array(fc.integer({ min: -20, max: 120 }), { maxLength: 12 }),
        fc.constantFrom("from" as const, "to" as const),
        (tasks, date, near, direction) => {
          const [step, holidays] = [direction === "from" ? 1 : -1, near.map((days) => date + days)] as const;
          const off = [...holidays, ...near.map((days) => date - days)];
          const [days, dates] = (["calendar", "working"] as const).map((count) =>
            timePlan(tasks, date, direction, off, count),
          );
          days?.forEach((day, place) => {
            for (const field of ["earliestStart", "latestStart", "earliestFinish", "latestFinish"] as const) {
              const number = step * (day[field] - date) + 1;
              expect(dates?.[place]?.[field]).toBe(walked(date, number, step, off));
            }
            expect(dates?.[place]?.float).toBe(day.float);
          });
        },
      ),
      { numRuns: 300 },
    );
  });

  test("to a finish is the same plan, moved so that it ends on the day", () => {
    fc.assert(
      fc.property(net, (tasks) => {
        const from = timePlan(tasks, START, "from", [], "calendar");
        const end = Math.max(...from.map(({ latestFinish }) => latestFinish));
        expect(timePlan(tasks, end, "to", [], "calendar")).toEqual(from);
      }),
    );
  });
});

describe("what a task waits for", () => {
  const days = (...tasks: [task: string, days: number, after: string][]) =>
    timePlan(
      tasks.map(([task, days, after]) => ({ task, days, after })),
      START,
      "from",
      [],
      "calendar",
    ).map(({ earliestFinish }) => earliestFinish - START + 1);

  test("is named however it is spaced and written, with blanks between commas, and may have a comma itself", () => {
    expect(days(["Dry  Spin", 2, ""], ["card", 3, ""], ["ply", 1, " , DRY spin ,, Card,"])).toEqual([2, 3, 4]);
    expect(days(["wash, dry", 5, ""], ["wash", 1, ""], ["pack", 1, "Wash,  dry"])).toEqual([5, 1, 6]);
    expect(days(["wash", 5, ""], ["dry", 1, ""], ["pack", 1, "wash,dry"])).toEqual([5, 1, 6]);
    expect(days(["re dye", 2, ""], ["red ye", 3, ""], ["pack", 1, "re dye"])).toEqual([2, 3, 3]);
  });
});

describe("a table that is no plan", () => {
  const task = (name: string, after: string): Task => ({ task: name, days: 1, after });
  const plan = (...tasks: Task[]) => refusalOf(() => timePlan(tasks, START, "from", [], "working"));

  test("is refused with the name that is wrong", () => {
    expect(plan(task("spin", "crad"))).toBe('#VALUE! tasks row 1, after, is "crad"; there is no such task');
    expect(plan(task("spin", ""), task("ply", " spin,  crad "))).toContain('tasks row 2, after, is "crad"; ');
    expect(plan(task("spin", ""), task(" Spin ", ""))).toBe(
      '#VALUE! tasks row 2, task, is " Spin " again; give each its own name',
    );
    expect(plan(task("spin", "spin"))).toContain("tasks row 1, after, is a circle: spin before spin");
    // Others wait for the circle, or go before it; neither is in it.
    expect(plan(task("card", ""), task("wind", "ply"), task("ply", "spin"), task("spin", "ply, card"))).toBe(
      "#VALUE! tasks row 3, after, is a circle: ply before spin before ply; must not come round",
    );
    const long = "x".repeat(40);
    expect(plan(task("a", long))).toContain(`"${"x".repeat(29)}…"`);
    expect(plan(task(long, ""), task(long, ""))).toContain(`"${"x".repeat(29)}…" again`);
    expect(plan(task("a", "c"), task("b", "a, d"), task("c", "b"), task("d", ""))).toContain(
      "tasks row 1, after, is a circle: a before b before c before a; must not come round",
    );
  });

  test("leaves the dates of the sheet as a number that cannot be", () => {
    const long = [{ task: "age", days: 3_000_000, after: "" }];
    for (const count of ["working", "calendar"] as const) {
      expect(refusalOf(() => timePlan(long, START, "from", [], count))).toMatch(/^#NUM!/);
      expect(refusalOf(() => timePlan(long, START, "to", [], count))).toMatch(/^#NUM!/);
    }
  });
});
