import * as blending from "../trade/blending";
import * as counting from "../trade/counts";
import { expectLosses } from "../trade/route/plausible-losses";
import * as money from "../trade/money";
import { at, refuse } from "../trade/refusal";
import { list, listOr, one, oneOr, sameLength } from "../sheet/arguments";
import {
  blankIs,
  loss,
  notNegative,
  numberThat,
  positive,
  regain,
  share,
  shareAboveZero,
  text,
  wholeNumber,
} from "../sheet/kinds";
import { countSystem } from "../sheet/units";
import { isOmitted, type Result } from "../sheet/cells";
import { expectSystem } from "../sheet/heading-units";
import { finiteRows, liftRows } from "../sheet/lift";
import { alongside, eachAlong, likeList, namedList, withNames, figuresOf } from "../sheet/names";
import { asColumn, inPlaces } from "../sheet/shape";
import { refuseTotalLoss } from "../sheet/totals";
import { propertyLimits } from "../sheet/property-limits";
import { expectNamesAlong, expectTurned, namedRecipes, recipeTable } from "../sheet/recipe-table";

/** Slivers on one creel; further apart are units. Common practice, no source. */
const MOST_TIMES = 100;

function expectAlike(counts: readonly number[]): void {
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  if (most <= MOST_TIMES * least) return;
  refuse("counts", `${least} to ${most}`, "slivers of one creel are nearer to each other; give all in one system");
}

const oneOrTwo = numberThat("must be 1 or 2", (value) => value === 1 || value === 2);

/**
 * Practical shares: the shares as multiples of a step that sum to exactly 1, nothing wanted dropped; a start recipe for a
 * hand-carded pad, not an approval.
 * @customfunction MIXROUND
 * @param {any[][]} shares Shares of the components as fractions, a list that sums to 1; 0 where unused. Or recipes one a
 * row, with the names of solids above and of recipes before them.
 * @param {any[][]} step Step of the shares, such as 0.01 or 0.05; must go into 1 a whole number of times.
 * @returns {any[][]} Practical shares, in the shape of the list or of the recipes, with their names.
 * @remarks Largest remainder: the nearest shares in whole steps by least squares, ties to the first; a share above 0
 * keeps at least one step. A sum that misses 1 by no more than half a step a share (shares rounded before) is scaled to
 * 1. Look at the shade of the rounded recipe again.
 * @throws #VALUE! when the shares do not sum to 1, the step does not go into 1, or there are more shares than steps.
 * @example =YARN.MIXROUND({0.6213;0.2487;0.1;0.03},0.01) → {0.62;0.25;0.1;0.03}
 * @example =YARN.MIXROUND({0.982,0.014,0.004},0.01) → {0.98,0.01,0.01}
 * @example =YARN.MIXROUND({"","red","grey","cream";"Moor",0.6213,0.3787,0;"Heath",0.248,0.248,0.504},0.01) → {"","red","grey","cream";"Moor",0.62,0.38,0;"Heath",0.25,0.25,0.5}
 * @see DEFINITION
 */
export function mixRound(shares: any[][], step: any[][]): any[][] {
  const recipes = namedRecipes({ shares });
  const by = one({ step }, shareAboveZero);
  if (recipes) {
    const rows = liftRows(recipes.solids.length, (recipe) => blending.practicalShares(recipe, by), recipes);
    return withNames(rows, recipes.names, recipes.solids);
  }
  const given = namedList({ shares }, share, "share");
  return likeList(given, blending.practicalShares(list(given.figures, share), by));
}

/**
 * Solids needed: kg of each dyed solid for all colourways, with the losses after blending. Shades are approved on
 * a pad, not here.
 * @customfunction MIXNEED
 * @param {any[][]} recipes Shares as fractions: one row per colourway, one column per solid; each row sums to 1, a
 * blank is an unused solid. Names of solids may stand above, of colourways before.
 * @param {any[][]} quantities Mass of each colourway, one per row of recipes, in kg (or another unit: the result is in
 * it).
 * @param {any[][]} [losses] Losses between blending and that mass, as fractions in process order, each of what enters
 * its stage; default none.
 * @returns {any[][]} One row: mass of each solid, in the unit of quantities; under the names of the solids if given.
 * @remarks Σ share × quantity / Π(1 − loss), all at one regain; give dry masses where regains differ. A row within 1e-6
 * of 1 is scaled to 1 (thirds to seven decimals); any other is refused, because a forgotten share would be dyed short.
 * MIXROUND mends a rounded recipe.
 * @throws #VALUE! naming the row of recipes and its sum when it is not 1, or when lengths do not match.
 * @example =YARN.MIXNEED({"colourway","red","grey","cream";"Moor",0.6,0.4,0;"Heath",0.25,0.25,0.5},{100;40}) → {"red","grey","cream";70,50,20}
 * @example =YARN.MIXNEED({0.5,0.5},{90},{0.1}) → {50,50}
 * @see DEFINITION
 */
export function mixNeed(recipes: any[][], quantities: any[][], losses?: any[][]): any[][] {
  const table = recipeTable({ recipes });
  expectNamesAlong(table, "row", { quantities }, "mass_wanted");
  const masses = list(alongside({ quantities }, notNegative, "mass_wanted", table.rows, "refused"), notNegative);
  expectTurned(table, "row", "quantities", masses.length);
  const lost = isOmitted(losses) ? [] : figuresOf({ losses }, loss, "loss");
  refuseTotalLoss("losses", lost);
  expectLosses("losses", lost);
  const needed = blending.solidsNeeded(table.values, masses, lost);
  return withNames(finiteRows([needed]), undefined, table.columns.names);
}

/**
 * Best use of a stock: kg of each colourway that the solids in stock make, for the greatest value in all. Shades
 * are approved on a pad, not here.
 * @customfunction MIXSTOCK
 * @param {any[][]} recipes Shares as fractions: one row per colourway, one column per solid; each row sums to 1, a
 * blank is an unused solid. Names of solids may stand above, of colourways before.
 * @param {any[][]} stock Mass of each solid in stock, one per column of recipes, in kg (or another unit: the result is
 * in it).
 * @param {any[][]} [values] Worth of a kg of each colourway, more than 0, one per row of recipes; default all equal.
 * @param {any[][]} [limits] Most of each colourway in kg, one per row of recipes or one cell for all; blank or left out: none.
 * @param {any[][]} [min_share] Least share of each colourway in all that is made; one cell for all or one per row;
 * default 0.
 * @param {any[][]} [max_share] Greatest share of each colourway in all that is made; one cell for all or one per row;
 * default 1.
 * @returns {any[][]} Column: mass of each colourway, not rounded, after its name if given; round down when you plan lots.
 * @remarks Linear programme: greatest Σ value × mass with Σ share × mass within the stock of every solid. Where several
 * plans are worth the same it gives one of them, the same every time. A limit of 0 is refused because a blank may arrive
 * as 0: leave the recipe out instead.
 * @throws #VALUE! naming the row of recipes and its sum when it is not 1, or when lengths do not match. #N/A when
 * min_share or max_share leave no room for shares of 1 in all.
 * @example =YARN.MIXSTOCK({"colourway","red","grey";"Moor",0.5,0.5;"Heath",1,0},{60,40}) → {"Moor",80;"Heath",20}
 * @example =YARN.MIXSTOCK({0.5,0.5;1,0},{60,40},{1;3}) → {0;60}
 * @see DEFINITION
 */
export function mixStock(
  recipes: any[][],
  stock: any[][],
  values?: any[][],
  limits?: any[][],
  min_share?: any[][],
  max_share?: any[][],
): any[][] {
  const table = recipeTable({ recipes });
  const { rows, columns } = table;
  expectNamesAlong(table, "column", { stock }, "stock");
  const inStock = list(alongside({ stock }, notNegative, "stock", columns), notNegative);
  expectTurned(table, "column", "stock", inStock.length);
  const ofEach = {
    values: eachAlong({ values }, positive, 1, "worth", rows),
    limits: eachAlong({ limits }, blankIs(positive, Infinity), Infinity, "most", rows),
    minShare: eachAlong({ min_share }, blankIs(share, 0), 0, "least_share", rows),
    maxShare: eachAlong({ max_share }, blankIs(shareAboveZero, 1), 1, "greatest_share", rows),
  };
  const plan = asColumn(blending.stockPlan(table.values, inStock, ofEach));
  return inPlaces(rows.blanks, withNames(plan, rows.names, undefined));
}

/**
 * Cheapest blend: shares of the components of least price whose properties keep within limits; a start for a trial blend,
 * not an approval.
 * @customfunction LEASTCOST
 * @param {any[][]} prices Price of each component per kg (any currency, one for all), more than 0; a list, with names if you like.
 * @param {any[][]} properties Properties: one row per component, one column per property (micron, hauteur in mm, …).
 * @param {any[][]} limits Two rows, minimum then maximum, one column per property, in its unit; blank or "none" is no
 * limit.
 * @param {any[][]} [min_share] Least share of each component, used or not; one cell for all or one per component;
 * default 0.
 * @param {any[][]} [max_share] Greatest share of each component, above 0; one cell for all or one per component;
 * default 1.
 * @param {any[][]} [weighting] What each property's mean is taken by: "mass" (default), or "length" for fibre diameter
 * as an instrument reads it; one cell for all or one per property.
 * @param {any[][]} [cvs] CV of fibre diameter of each component as a fraction, for "length"; one cell for all or one
 * per component; default 0 (it cancels where all are equal).
 * @returns {any[][]} Shares that sum to 1, in the shape of prices, with the names; not rounded.
 * @remarks Linear programme: least Σ price × share. Mean by mass Σ x·p; by length Σ x·w·p / Σ x·w with
 * w = 1/(d²(1 + cv²)). Do not round the shares without checking the limits again. Only properties that average can be
 * limited; a maximum of 0 must be written 1E-9, because a blank may arrive as 0.
 * @throws #N/A naming a limit that cannot be met, and what can be reached. #VALUE! when shapes do not match.
 * @example =YARN.LEASTCOST({12;9;7},{19;21;24},{"none";20.5}) → {0.25;0.75;0}
 * @example =YARN.LEASTCOST({12;9;7},{19;21;24},{"none";18}) → #N/A
 * @see DEFINITION, STIGLER-1945
 */
export function leastCost(
  prices: any[][],
  properties: any[][],
  limits: any[][],
  min_share?: any[][],
  max_share?: any[][],
  weighting?: any[][],
  cvs?: any[][],
): any[][] {
  const priced = namedList({ prices }, positive, "price");
  const price = list(priced.figures, positive);
  const components = { ...priced.along, count: price.length };
  const { kept, names } = propertyLimits({ properties }, { limits }, { weighting }, { cvs }, components);
  const least = eachAlong({ min_share }, blankIs(share, 0), 0, "least_share", components);
  const most = eachAlong({ max_share }, blankIs(shareAboveZero, 1), 1, "greatest_share", components);
  const named = names === undefined ? priced : { ...priced, along: { ...components, names } };
  return likeList(named, blending.leastCostShares(price, kept, least, most));
}

/**
 * Weigh-up of a blend laid down in sections: kg of each component per section in steps of the scale, and in all. Approve
 * the shade on a pad first.
 * @customfunction LAYDOWN
 * @param {any[][]} batch Mass of the batch in kg; the dry mass when regains are given (DRYMASS gives it).
 * @param {any[][]} shares Shares of the components as fractions, a list that sums to 1; 0 where unused. A column of names
 * may come along.
 * @param {any[][]} sections Number of sections the batch is laid down in, a whole number.
 * @param {any[][]} [step] Step of the scale in kg; default 0.1.
 * @param {any[][]} [regains] Regain of each component as it lies, a fraction; one cell for all or one per component.
 * Left out, all is weighed at one condition and batch is a mass at it.
 * @returns {any[][]} Header row, one row per component in the order given, with its name if given, totals row.
 * @remarks Every section is weighed alike, by largest remainder on the section's total, so all have the same shares.
 * With regains: m = share × dry batch × (1 + regain), and realised shares are of dry mass. Carry is what is weighed
 * beyond what was wanted. Common practice, no source: pre-blend a share under about 3 to 5 % with part of a larger one.
 * @throws #VALUE! when shares do not sum to 1, or a component would be less than a step and drop out.
 * @example =YARN.LAYDOWN(652.174,{"red",0.62;"grey",0.25;"cream",0.1;"black",0.03},3,0.5) → {"component","kg per section","kg in all","realised share","carry (kg)";"red",135,405,0.6207,0.6521;"grey",54.5,163.5,0.2506,0.4565;"cream",21.5,64.5,0.0989,-0.7174;"black",6.5,19.5,0.0299,-0.0652;"total",217.5,652.5,1,0.326}
 * @see DEFINITION, PRACTICE
 */
export function layDown(
  batch: any[][],
  shares: any[][],
  sections: any[][],
  step?: any[][],
  regains?: any[][],
): any[][] {
  const { figures, along } = namedList({ shares }, share, "share");
  const parts = list(figures, share);
  const condition = eachAlong({ regains }, regain, 0, "regain_as_it_lies", { ...along, count: parts.length });
  const weighed = blending.weighUp(
    one({ batch }, positive),
    parts,
    one({ sections }, wholeNumber),
    oneOr({ step }, positive, 0.1),
    condition,
  );
  weighed.components.forEach(({ realisedShare }, index) => expectNear(realisedShare, parts[index] as number, index));
  const rows = weighed.components.map((component, index) => weighingRow(along.names?.[index] ?? index + 1, component));
  return finiteRows([
    ["component", "kg per section", "kg in all", "realised share", "carry (kg)"],
    ...inPlaces(along.blanks, rows),
    weighingRow("total", weighed.total),
  ]);
}

/** A share off by a tenth of the blend is another blend; common practice, no source. */
const FURTHEST_SHARE = 0.1;

function expectNear(realised: number, wanted: number, index: number): void {
  if (Math.abs(realised - wanted) <= FURTHEST_SHARE) return;
  const made = Number(realised.toPrecision(3));
  refuse(at("shares", index), `${wanted}, and ${made} on this scale`, "too far off: a finer step, or batch in kg");
}

function weighingRow(name: number | string, { perSection, inAll, realisedShare, carry }: blending.Weighing): Result[] {
  return [name, perSection.toNumber(), inAll.toNumber(), realisedShare, carry.toNumber()];
}

/**
 * Slivers to creel up on the gill: whole slivers of each solid so that the blend comes nearest to the recipe by mass.
 * @customfunction SLIVERPLAN
 * @param {any[][]} shares Shares of the solids as fractions of mass, a list that sums to 1; at most 12, 0 where unused.
 * @param {any[][]} counts Count of one sliver of each solid; one cell for all or one per solid.
 * @param {any[][]} system Count system of the slivers, one word: "ktex", "g/m", "oz/yd", …
 * @param {any[][]} slivers Most slivers that the gill takes at once, a whole number up to 60; fewer may be used.
 * @param {any[][]} [passages] Number of passages: 1 (default), or 2 where small solids may be blended with another first.
 * @param {any[][]} [names] Names of the solids, a list as long as shares; left out: solid 1, solid 2, …
 * @returns {any[][]} Header, one row per solid, with 2 passages a row for the pre-blend where one helps, totals row;
 * columns: solid, slivers, share wanted, share made, off by; with 2 passages also slivers in the pre-blend.
 * @remarks Share made = slivers × count / Σ slivers × count. No plan comes nearer: it has the least greatest deviation in
 * share and, of those, the fewest slivers. A solid of less than about half a sliver may come to 0: look at off by. With 2
 * passages the solids of which a full creel would want less than one sliver may be pre-blended, all with one other
 * solid, and the pre-blend is drawn to the count of that solid; shares made are those after the last passage. What given
 * slivers make is FOLDSHARES with the slivers as feeds. For loose stock use LAYDOWN. Look at the shade of the shares made.
 * @throws #VALUE! when shares do not sum to 1, there are more than 12 solids or 60 slivers, or lengths do not match.
 * @example =YARN.SLIVERPLAN({0.4;0.35;0.25},20,"ktex",20,1,{"red";"grey";"cream"}) → {"solid","slivers","share wanted","share made","off by (share)";"red",8,0.4,0.4,0;"grey",7,0.35,0.35,0;"cream",5,0.25,0.25,0;"total",20,1,1,0}
 * @example =YARN.SLIVERPLAN({0.02;0.98},20,"ktex",10,2,{"red";"grey"}) → {"solid","slivers","share wanted","share made","off by (share)","slivers in the pre-blend";"red",0,0.02,0.02,0,1;"grey",9,0.98,0.98,0,4;"pre-blend at the count of grey",1,"","","","";"total",10,1,1,0,5}
 * @see DEFINITION, PRACTICE
 */
export function sliverPlan(
  shares: any[][],
  counts: any[][],
  system: any[][],
  slivers: any[][],
  passages?: any[][],
  names?: any[][],
): any[][] {
  const { figures, along } = namedList({ shares }, share, "share");
  const recipe = list(figures, share);
  const own = along.names ?? recipe.map((_, index) => `solid ${index + 1}`);
  const called = listOr({ names }, text, own);
  sameLength("shares", recipe.length, "names", called.length);
  const inSystem = one({ system }, countSystem);
  if (isOmitted(counts)) one({ counts }, positive);
  const lengths = eachAlong({ counts }, positive, 1, "count", { ...along, count: recipe.length });
  expectSystem(inSystem);
  expectAlike(lengths);
  const masses = lengths.map((count) => counting.texOf(count, inSystem));
  const twice = oneOr({ passages }, oneOrTwo, 1) === 2;
  const plan = blending.sliverPlan(recipe, masses, one({ slivers }, wholeNumber), twice ? 2 : 1);
  const { preBlend, wanted, made } = plan;
  const inAll = (counted: readonly number[]): number => counted.reduce((sum, count) => sum + count, 0);
  const rows: Result[][] = called.map((name, solid) => {
    const [part, goal] = [made[solid] as number, wanted[solid] as number];
    const offBy = money.roundHalfAway(part - goal, 15).toNumber();
    return [name, plan.slivers[solid] as number, goal, part, offBy, preBlend?.slivers[solid] ?? 0];
  });
  if (preBlend !== undefined) {
    rows.push([`pre-blend at the count of ${called[preBlend.carrier] as string}`, preBlend.drawn, "", "", "", ""]);
  }
  const last = inAll(plan.slivers) + (preBlend?.drawn ?? 0);
  rows.push(["total", last, 1, 1, 0, inAll(preBlend?.slivers ?? [])]);
  const header = ["solid", "slivers", "share wanted", "share made", "off by (share)", "slivers in the pre-blend"];
  return finiteRows([header, ...inPlaces(along.blanks, rows)].map((row) => (twice ? row : row.slice(0, 5))));
}
