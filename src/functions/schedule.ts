import * as scheduling from "../trade/schedule";
import { listOr, one, oneOr, tableInPlace } from "../sheet/arguments";
import { planDate } from "../sheet/dates";
import { blankOrZero, text, wholeThat, word } from "../sheet/kinds";
import { finiteRows } from "../sheet/lift";
import { inPlaces } from "../sheet/shape";
import { wordsFor } from "../sheet/words";

const planDirection = word<scheduling.PlanDirection>(wordsFor("direction", "from", "to"));
const dayCount = word<scheduling.DayCount>(wordsFor("days", "working", "calendar"));
/** Ten years; a date in the place of days is more. Common practice, no source. */
const taskDays = wholeThat("must be a whole number of days, 0 to 3650", (days) => days >= 0 && days <= 3650);
const TASK = { task: text, days: taskDays, after: blankOrZero(text, "") };
/** A list of holidays may have room to spare. */
const holiday = blankOrZero(planDate, 0);

/**
 * When each task of an order can start and must start: first and last dates, days of float and the critical path.
 * @customfunction TIMEPLAN
 * @param {any[][]} tasks Table: task (its name), days (whole days it takes, up to 3650; 0 for an event), after (names of the tasks
 * that must be finished before, separated by commas; blank for none). With its heading row, columns in any order among
 * others; the tasks in any order.
 * @param {any[][]} date Date from which the whole may start, or on which it must be finished, a date of the sheet.
 * @param {any[][]} direction "from" (the date is the start) or "to" (the date is the finish).
 * @param {any[][]} [holidays] Date of each day on which nobody works, a list; default none. Not used with "calendar".
 * @param {any[][]} [days] "working" (default): Monday to Friday less holidays; "calendar": every day.
 * @returns {any[][]} Header, then one row per task: task, earliest start, latest start, earliest finish, latest finish
 * (dates: format them), float in the days counted, critical (TRUE or FALSE).
 * @remarks Start is the first day worked and finish the last, so a task of 1 day starts and finishes on one date. A task
 * starts on the day after the last of those before it is finished. A date on which nobody works counts as the next
 * day worked ("from") or the one before ("to"). Float: days that a task can be late without making the whole late;
 * critical tasks have none. Give transport and waiting as tasks of their own. One mill that has two tasks at once is
 * not seen: put one after the other.
 * @throws #VALUE! naming the task when one is unknown, stands twice or comes round in a circle, days are not whole, or
 * a date is none. #NUM! when the plan leaves the dates of the sheet.
 * @example =YARN.TIMEPLAN({"task","days","after";"scour",5,"";"comb",3,"scour";"spin",10,"comb";"labels",4,""},46083,"from") → {"task","earliest start (date)","latest start (date)","earliest finish (date)","latest finish (date)","float (days)","critical";"scour",46083,46083,46087,46087,0,TRUE;"comb",46090,46090,46092,46092,0,TRUE;"spin",46093,46093,46106,46106,0,TRUE;"labels",46083,46101,46086,46106,14,FALSE}
 * @example =INDEX(YARN.TIMEPLAN({"spin",10,"";"ply",5,"spin"},46101,"to",46097),2,3) → 46080
 * @see DEFINITION, PRACTICE
 */
export function timePlan(
  tasks: any[][],
  date: any[][],
  direction: any[][],
  holidays?: any[][],
  days?: any[][],
): any[][] {
  const { rows, blanks } = tableInPlace({ tasks }, TASK);
  const off = listOr({ holidays }, holiday, []).filter((day) => day > 0);
  const times = scheduling.timePlan(
    rows,
    one({ date }, planDate),
    one({ direction }, planDirection),
    off,
    oneOr({ days }, dayCount, "working"),
  );
  const lines = times.map(({ earliestStart, latestStart, earliestFinish, latestFinish, float }, index) => {
    const name = (rows[index] as scheduling.Task).task;
    return [name, earliestStart, latestStart, earliestFinish, latestFinish, float, float === 0];
  });
  return finiteRows([HEADER, ...inPlaces(blanks, lines)]);
}

const HEADER = [
  "task",
  "earliest start (date)",
  "latest start (date)",
  "earliest finish (date)",
  "latest finish (date)",
  "float (days)",
  "critical",
];
