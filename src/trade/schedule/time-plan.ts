import { at, refuse, shortened } from "../refusal";
import { WorkingDays, type DayCount } from "./working-days";

export interface Task {
  readonly task: string;
  /** Whole days that it takes; 0 for an event, such as a sailing. */
  readonly days: number;
  /** Names of the tasks that must be finished before, separated by commas. */
  readonly after: string;
}

/** Is the date the start of the whole, or its finish? */
export type PlanDirection = "from" | "to";

/** When a task can and must be worked on: first and last day, as dates of the sheet. */
export interface TaskTimes {
  readonly earliestStart: number;
  readonly latestStart: number;
  readonly earliestFinish: number;
  readonly latestFinish: number;
  /** Days that it can be put off without putting off the end. */
  readonly float: number;
}

/**
 * The critical path: forwards each task starts when the last before it is finished, backwards each finishes when the
 * first after it must start, and the days between are its float.
 */
export function timePlan(
  tasks: readonly Task[],
  date: number,
  direction: PlanDirection,
  holidays: readonly number[],
  count: DayCount,
): TaskTimes[] {
  const before = tasksBefore(tasks);
  const order = inOrder(tasks, before);
  const days = (task: number): number => (tasks[task] as Task).days;
  // Days done before a task starts, and before it must have finished.
  const starts = new Array<number>(tasks.length).fill(0);
  for (const task of order) {
    for (const other of before[task] as number[]) {
      starts[task] = Math.max(starts[task] as number, (starts[other] as number) + days(other));
    }
  }
  const whole = starts.reduce((most, start, task) => Math.max(most, start + days(task)), 0);
  const ends = new Array<number>(tasks.length).fill(whole);
  for (const task of order.slice().reverse()) {
    for (const other of before[task] as number[]) {
      ends[other] = Math.min(ends[other] as number, (ends[task] as number) - days(task));
    }
  }
  const calendar = new WorkingDays(date, count, direction === "from" ? 1 : -1, holidays);
  /** Date of the so-manieth day of the whole. An event is on the day that ends with it, or on the first. */
  const dateOf = (number: number): number => {
    const day = Math.min(Math.max(number, 1), Math.max(whole, 1));
    return calendar.day(direction === "from" ? day : Math.max(whole, 1) - day + 1);
  };
  const firstDay = (done: number, task: number): number => dateOf(days(task) === 0 ? done : done + 1);
  return tasks.map((_, task) => {
    const [start, end] = [starts[task] as number, ends[task] as number];
    return {
      earliestStart: firstDay(start, task),
      latestStart: firstDay(end - days(task), task),
      earliestFinish: dateOf(start + days(task)),
      latestFinish: dateOf(end),
      float: end - days(task) - start,
    };
  });
}

function key(name: string): string {
  return name.replace(/\s+/g, " ").trim().toLowerCase();
}

/** For each task the places of those that it waits for. */
function tasksBefore(tasks: readonly Task[]): number[][] {
  const places = new Map<string, number>();
  tasks.forEach(({ task }, place) => {
    const earlier = places.get(key(task));
    if (earlier !== undefined)
      refuse(at("tasks", place, "task"), `"${shortened(task, 30)}" again`, "give each its own name");
    places.set(key(task), place);
  });
  return tasks.map(({ after }, place) => {
    const whole = places.get(key(after));
    // A name may hold a comma itself.
    const names = whole === undefined ? after.split(",").filter((name) => name.trim() !== "") : [after];
    return names.map((name) => {
      const other = places.get(key(name));
      if (other === undefined)
        refuse(at("tasks", place, "after"), `"${shortened(name.trim(), 30)}"`, "there is no such task");
      return other;
    });
  });
}

/** The tasks, each behind all that it waits for. */
function inOrder(tasks: readonly Task[], before: readonly (readonly number[])[]): number[] {
  const order: number[] = [];
  const waiting = before.map((others) => others.length);
  const behind = tasks.map((): number[] => []);
  before.forEach((others, task) => others.forEach((other) => (behind[other] as number[]).push(task)));
  waiting.forEach((count, task) => count === 0 && order.push(task));
  for (let next = 0; next < order.length; next++) {
    for (const task of behind[order[next] as number] as number[]) {
      waiting[task]!--;
      if (waiting[task] === 0) order.push(task);
    }
  }
  if (order.length < tasks.length) refuseCircle(tasks, before, waiting);
  return order;
}

/** From any task that still waits, the way back through those that still wait comes round. */
function refuseCircle(
  tasks: readonly Task[],
  before: readonly (readonly number[])[],
  waiting: readonly number[],
): never {
  const way: number[] = [];
  let task = waiting.findIndex((count) => count > 0);
  while (way.indexOf(task) < 0) {
    way.push(task);
    task = (before[task] as readonly number[]).find((other) => (waiting[other] as number) > 0) as number;
  }
  const circle = way.slice(way.indexOf(task)).reverse();
  const first = circle.indexOf(Math.min(...circle));
  const names = [...circle.slice(first), ...circle.slice(0, first)].map((place) => (tasks[place] as Task).task);
  const round = shortened([...names, names[0] as string].join(" before "), 60);
  return refuse(at("tasks", circle[first] as number, "after"), `a circle: ${round}`, "must not come round");
}
