import type { Light } from "../../tables/lights";
import type { AdditionWish } from "./additions";
import { blended } from "./blend-models";
import { difference2000 } from "./shade-difference";
import {
  furtherDifferences,
  furtherHeadings,
  noted,
  outOfReachNote,
  ranking,
  readingNotes,
  solidNames,
  type ChoicesTerms,
} from "./shade-choices";
import { labOf } from "./tristimulus";

/** An addition nearer to its limit, in parts of it, is at it. */
const AT_LIMIT = 1e-9;

/**
 * A correction as a table, before and after: masses added and in all, shade, difference, note; with several lights also
 * the difference in each other one asked for, and the one that ranks.
 */
export function additionsTable(
  { target, batch, batchMass, solids, most, model, lights }: AdditionWish,
  added: readonly number[],
  { measured, overWhite, names }: Omit<ChoicesTerms, "prices">,
): (string | number)[][] {
  const light = lights[0] as Light;
  const mass = added.reduce((sum, addition) => sum + addition, batchMass);
  const shares = [batchMass, ...added].map((part) => part / mass);
  const reflectance = blended(shares, [batch, ...solids], model);
  const rowOf = (when: string, masses: readonly number[], inAll: number, shown: ArrayLike<number>, note: string) => [
    ...[when, ...masses, inAll, ...labOf(shown, light)],
    difference2000(labOf(target, light), labOf(shown, light)),
    note,
    ...furtherDifferences(target, shown, lights),
  ];
  const isAtMost = (addition: number, place: number): boolean =>
    addition > 0 && addition >= (most[place] as number) * (1 - AT_LIMIT);
  const note = noted([
    added.every((addition) => addition === 0) ? "nothing helps" : "",
    added.some(isAtMost) ? "at the most" : "",
    outOfReachNote(ranking({ target, lights })({ reflectance })),
    ...readingNotes(measured, overWhite),
  ]);
  const masses = solidNames(solids.length, names).map((name) => `${name} added (kg)`);
  const nothing = added.map(() => 0);
  return [
    [
      ...["batch", ...masses, "mass (kg)", "L*", "a*", "b*"],
      ...[`difference (CIEDE2000, ${light.word})`, "note", ...furtherHeadings(lights)],
    ],
    rowOf("before", nothing, batchMass, batch, ""),
    rowOf("after", added, mass, reflectance, note),
  ];
}
