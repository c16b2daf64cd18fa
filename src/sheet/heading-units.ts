import type { CountSystem } from "../tables/count-systems";
import { refuse, shortened } from "../trade/refusal";
import { MONEY } from "./headings";
import { accepts, type Kind } from "./kinds";
import { countSystem, massUnit } from "./units";

/*
 * A heading may say what its figures are in. Nothing is converted by it, but it is refused where the column holds
 * something else, and where it contradicts another heading of the call, or its count system.
 */

/** For each sort of unit the one that a heading of the present call says, and that heading. */
const said = new Map<string, readonly [meant: number | string, heading: string]>();

/** What was said for one call says nothing of the next. */
export function forgetUnits(): void {
  said.clear();
}

function expectSame(sort: string, meant: number | string, name: string, came: string): void {
  const other = said.get(sort);
  if (other && other[0] !== meant) refuse(name, came, `beside the heading ${other[1]}; bring both to one unit`);
}

/** Columns that stand in one unit only, and no other begins with its letter. */
const OWN: Readonly<Record<string, string>> = { hours: "hours", days: "days", tare: "g", net: "kg" };
const TIME = /^(min\w*|h(ou)?rs?|h|d(ays?)?|w(ee)?ks?)$/i;
const CURRENCY = new RegExp(`^(?:${MONEY})$`);

/** In brackets at the end, or the last word of a heading that is known without it, or all of a heading. */
function unitIn(heading: string, known: boolean): string {
  const [, within, word = ""] = /[([]([^)\]]*)[)\]]$|(\S+)$/.exec(heading) as RegExpExecArray;
  return within || ((known || word === heading) && word.length > 1 ? word : "");
}

/** A letter alone is a mass in small only, and pounds may be money. */
function isMass(word: string): boolean {
  return !/^([A-Z]|pounds?)$/.test(word) && massUnit.refusalOf!(word) === undefined;
}

/** Refuses a heading above figures of a kind that says another unit than they can have, or than another heading. */
export function expectUnit(name: string, written: string, key: string, kind: Kind<unknown>, known = true): void {
  const heading = written.trim();
  const unit = unitIn(heading, known);
  const quoted = `"${shortened(heading)}"`;
  const came = `headed ${quoted}`;
  const agree = (sort: string, meant: number | string): void => {
    expectSame(sort, meant, name, came);
    said.set(sort, [meant, quoted]);
  };
  if (/^(count|measured)$/.test(key) && countSystem.refusalOf!(unit) === undefined) {
    return agree("count", sizeOf(countSystem(unit, name)));
  }
  const own = OWN[key];
  if (own && (TIME.test(unit) || isMass(unit)) && unit[0]!.toLowerCase() !== own[0])
    refuse(name, came, `must be in ${own}`);
  if (unit === "%" && key !== "rate" && accepts(kind, 1e6)) refuse(name, came, "must be amounts");
  const words = unit.split(/[\s/]+/);
  const masses = words.filter(isMass);
  if (/\b100+( |$)/.test(unit)) refuse(name, came, "must be for one");
  // A mass for a mass is a share.
  if (masses.length === 1 && accepts(kind, 0.2) && !accepts(kind, 100))
    refuse(name, came, "must be fractions: 5% or 0.05");
  // Goods may be weighed in one unit and sold in another.
  if (key !== "mass") masses.forEach((word) => agree("mass", massUnit(word, name)));
  const [money = "", another] = words.filter((word) => CURRENCY.test(word));
  // A sign may be that of a code, and two are those of a rate of exchange.
  if (money.length > 1 && !another && key !== "currency_rate") agree("money", money);
}

function sizeOf({ direct, size }: CountSystem): string {
  return `${direct} ${size.numerator / size.denominator}`;
}

/** The count system of a call, where its counts are headed by one too. */
export function expectSystem(system: CountSystem): void {
  expectSame("count", sizeOf(system), "system", `"${system.word}"`);
}
