import { REGAINS, type RegainRow, type RegainSchedule } from "../../tables/regains";
import { roundHalfAway } from "../money";
import { absent } from "../refusal";

const ROWS_OF: ReadonlyMap<string, readonly RegainRow[]> = REGAINS.reduce((found, row) => {
  (found.get(row.fibre) ?? found.set(row.fibre, []).get(row.fibre)!).push(row);
  return found;
}, new Map<string, RegainRow[]>());

/** Room for the values in a message, beside the argument and what came. */
const ROOM = 92;

/**
 * The standard regain of a fibre. It answers only where there is nothing to choose: where forms or schedules differ
 * it lists the values, because the choice is the contract's or the law's. A recalled value is given only to whoever
 * names its schedule.
 */
export function standardRegain(fibre: string, form?: string, schedule?: RegainSchedule): number {
  const known = ROWS_OF.get(fibre) ?? [];
  return schedule === undefined ? agreedRegain(fibre, known, form) : regainIn(schedule, fibre, known, form);
}

function regainIn(schedule: RegainSchedule, fibre: string, known: readonly RegainRow[], form?: string): number {
  const inSchedule = known.filter((row) => row.schedule === schedule);
  if (inSchedule.length === 0) {
    absent("material", fibre, `not in ${schedule}; it is in ${schedulesOf(known).join(", ")}`);
  }
  const rows = form === undefined ? inSchedule : inSchedule.filter((row) => answers(row, form));
  if (rows.length === 0) {
    absent("form", form as string, clipped(`${fibre} is known as `, inSchedule.map(spokenForm)));
  }
  return alike(rows) ?? formLeftOut(fibre, rows);
}

/**
 * The regain on which all schedules that know the fibre agree. A schedule that knows the fibre but not the form has
 * its say as well: were it passed over, a word that only a schedule without forms accepts would choose that schedule.
 */
function agreedRegain(fibre: string, known: readonly RegainRow[], form?: string): number {
  const forms = formsOf(known);
  if (form !== undefined && forms.length > 0 && forms.indexOf(form) < 0) {
    absent("form", form, clipped(`no form of ${fibre}; it has `, forms));
  }
  const schedules = schedulesOf(known);
  const rows = ([] as RegainRow[]).concat(
    ...schedules.map((schedule) => {
      const its = known.filter((row) => row.schedule === schedule);
      const fitting = form === undefined ? its : its.filter((row) => answers(row, form));
      return fitting.length > 0 ? fitting : its;
    }),
  );
  const agreed = alike(rows);
  if (agreed === undefined) {
    if (schedules.length > 1) absent("schedule", "left out", clipped(`${fibre}: `, ranges(rows)));
    return formLeftOut(fibre, rows);
  }
  if (rows.every(({ status }) => status === "memory")) {
    absent("schedule", "left out", clipped(`from memory only, name it for ${fibre}: `, ranges(rows)));
  }
  return agreed;
}

/** The regain that all rows have. */
function alike(rows: readonly RegainRow[]): number | undefined {
  const { regain } = rows[0] as RegainRow;
  return rows.every((row) => row.regain === regain) ? regain : undefined;
}

function formLeftOut(fibre: string, rows: readonly RegainRow[]): never {
  const { schedule } = rows[0] as RegainRow;
  return absent("form", "left out", clipped(`${fibre} in ${schedule}: `, rows.map(spokenForm)));
}

/** The forms that any schedule tells apart; none where all take the fibre in any form. */
function formsOf(rows: readonly RegainRow[]): string[] {
  const words: string[] = [];
  for (const { form, covers } of rows) {
    for (const word of [form, ...covers]) if (word !== "" && words.indexOf(word) < 0) words.push(word);
  }
  return words;
}

function answers(row: RegainRow, form: string): boolean {
  return row.form === "" || row.form === form || row.covers.indexOf(form) >= 0;
}

function schedulesOf(rows: readonly RegainRow[]): RegainSchedule[] {
  const names: RegainSchedule[] = [];
  for (const { schedule } of rows) if (names.indexOf(schedule) < 0) names.push(schedule);
  return names;
}

/** One schedule, one value or span: "EU label 17%-18.25%". */
function ranges(rows: readonly RegainRow[]): string[] {
  return schedulesOf(rows).map((schedule) => {
    const values = rows.filter((row) => row.schedule === schedule).map(({ regain }) => regain);
    const [least, most] = [Math.min(...values), Math.max(...values)];
    return `${schedule} ${least === most ? percent(least) : `${percent(least)}-${percent(most)}`}`;
  });
}

function spokenForm({ form, regain }: RegainRow): string {
  return `${form === "" ? "any form" : form} ${percent(regain)}`;
}

function percent(regain: number): string {
  return `${roundHalfAway(regain * 100, 6).toNumber()}%`;
}

/** As many items as a message holds; the rest are for the table function. */
function clipped(lead: string, items: readonly string[]): string {
  let text = lead;
  for (let index = 0; index < items.length; index++) {
    const next = `${index === 0 ? "" : ", "}${items[index] as string}`;
    if (text.length + next.length > ROOM - (index < items.length - 1 ? 15 : 0)) return `${text}; see REGAINS`;
    text += next;
  }
  return text;
}
