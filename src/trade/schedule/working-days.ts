import { LAST_DAY } from "../calendar";
import { impossible } from "../refusal";

/** Which days count: Monday to Friday less holidays, or every day. */
export type DayCount = "working" | "calendar";

/** The sheet's day 1 is a Sunday and its day 7 a Saturday, by its own reckoning of 1900 too. */
const DAYS_OF_WEEK = 7;
const isWeekend = (day: number): boolean => day % DAYS_OF_WEEK <= 1;

/** Days of the sheet on which work is done, numbered from one of them on or before a date. */
export class WorkingDays {
  private readonly holidays: ReadonlySet<number>;
  private readonly days: number[];

  /** Day 1 is the first day worked from `date` on, or, counted backwards, the last one up to it. */
  constructor(
    date: number,
    private readonly count: DayCount,
    private readonly step: 1 | -1,
    holidays: readonly number[],
  ) {
    this.holidays = new Set(holidays);
    this.days = [this.worked(date)];
  }

  /** The date of the so-manieth day worked, from 1. */
  day(number: number): number {
    if (this.count === "calendar") return this.within((this.days[0] as number) + this.step * (number - 1));
    while (this.days.length < number) {
      this.days.push(this.worked((this.days[this.days.length - 1] as number) + this.step));
    }
    return this.days[number - 1] as number;
  }

  /** The first day worked from a date on, in the direction of counting. */
  private worked(date: number): number {
    let day = date;
    if (this.count === "working") {
      while (day >= 1 && day <= LAST_DAY && (isWeekend(day) || this.holidays.has(day))) day += this.step;
    }
    return this.within(day);
  }

  private within(day: number): number {
    if (day >= 1 && day <= LAST_DAY) return day;
    return impossible("date", "too near the end of the sheet's days", "the plan must lie between 1900 and 9999");
  }
}
