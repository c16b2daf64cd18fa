import { bars } from "../bars";
import type { Drawing } from "../svg";
import type { Work } from "../../work";
import { textOf } from "../../page/written";

/** Bars of days; what is paler after a bar is time to spare. */
export function scheduleDrawing({ table }: Work): Drawing {
  const tasks = '{"scour",5,"";"comb",3,"scour";"spin",10,"comb";"labels",4,"";"pack",2,"spin, labels"}';
  const rows = table(`=YARN.TIMEPLAN(${tasks},46083,"from")`).slice(1);
  const start = Math.min(...rows.map((row) => Number(row[1])));
  const plan = rows.map(([name, earliest, , finish, latest, float]) => ({
    name: textOf(name),
    from: Number(earliest) - start,
    to: Number(finish) - start + 1,
    latest: Number(latest) - start + 1,
    float: Number(float),
  }));
  return {
    title: "Who works when, and where there is time to spare",
    says: `Days counted from the first: ${plan.map(({ name, from, to, float }) => `${name} from day ${from + 1} to ${to}${float > 0 ? `, ${float} working days to spare` : ", none to spare"}`).join("; ")}.`,
    ...bars(
      plan.map(({ name, from, to, latest, float }) => ({
        name,
        from,
        to,
        on: latest,
        said: `day ${from + 1} to ${to}${float > 0 ? `, ${float} to spare` : ""}`,
        colour: float > 0 ? ("first" as const) : ("second" as const),
      })),
    ),
  };
}
