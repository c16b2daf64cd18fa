import * as shade from "../trade/shade";
import { DAYLIGHT, observerOf, type Light } from "../tables/lights";
import { absent, refuse } from "../trade/refusal";
import { list, listOr, one, oneOr, optional, required, sameLength } from "../sheet/arguments";
import { isBlank, type Cell, type Result, type Results } from "../sheet/cells";
import { blankIs, notNegative, positive, wholeNumber } from "../sheet/kinds";
import { finiteRows, lift, liftRows } from "../sheet/lift";
import {
  differenceFormula,
  expectScale,
  fitForm,
  blockAxes,
  CHANGE_IN_COLOUR,
  greyScaleForm,
  HALF_AXES,
  three,
  toleranceFormula,
  labRow,
  lightWord,
  ownBandsRow,
  reflectanceRow,
  shadeForm,
  shadeTolerance,
} from "../sheet/shades";
import {
  blendModel,
  FIBRE_MODEL,
  correctionTerms,
  firstOf,
  matchTerms,
  oneRecipe,
  oneShade,
  pads,
  recipeRows,
  solidShades,
  type Aim,
} from "../sheet/blends";
import { alongside, eachAlong, withNames, type Along } from "../sheet/names";
import { shadeColumn } from "../sheet/shade-rows";
import { inPlaces, transposed } from "../sheet/shape";
import { expectTargets } from "../sheet/work";
import { channel, channelsGiven, hexOrRed, wavelength, wavelengthStep } from "../sheet/shades";

/**
 * Shade of a blend of dyed solids, as L*a*b* or reflectance. For a start recipe for a hand-carded pad, not an approval.
 * @customfunction MIXSHADE
 * @param {any[][]} shares Mass share of each solid, 0 to 1, summing to 1: a list, or one recipe a row; with names of solids above and of recipes before them if you like.
 * @param {any[][]} solids One solid a row: reflectance 0 to 1 in 31 bands (400 to 700 nm by 10) or 16 (by 20), or L*, a*, b*; with names or headings if you like.
 * @param {any[][]} [model] Blend model: "fibre" (default), "exponential", "ks", or the constant M from MIXFIT.
 * @param {any[][]} [result] "lab" (default): L*, a*, b*; or "reflectance": 31 bands.
 * @param {any[][]} [light] Light and observer, such as "D65/10" (default), "A/10", "F11/10", "F2/10", "D65/2".
 * @returns {any[][]} One row per recipe: L*, a*, b*, or 31 reflectances from 400 to 700 nm; after its name if recipes have names.
 * @remarks Names of solids in both put every share to its solid; headings are L*, a*, b* or wavelengths, in any order among other columns. F(R) = Σ share × F(R of the solid) in every band. fibre: F = (1-R)/(M(R-0.01)+0.01), M 0.15; exponential: F = exp(-0.28 K/S); ks: F = K/S. The constants 0.15 and 0.28 are from memory, verify before use; better, fit M to your own pads with MIXFIT. With a fitted constant the mean error is 1.0 to 1.2 CIEDE2000 and the largest about 4; with the default expect worse, worst for white with very dark. Solids given as L*a*b* get the smoothest reflectance of that shade in this light, about 0.4 unit more. A start recipe for a hand-carded pad, not an approval.
 * @throws #VALUE! when shares do not sum to 1 or do not match the solids, a row is neither a reflectance nor L*a*b*, or a word is unknown.
 * @example =YARN.MIXSHADE({0.7,0.3},{"solid","L*","a*","b*";"cream",85,0,8;"red",45,30,15}) → {64.6124,19.6477,11.0302}
 * @example =ROUND(INDEX(YARN.MIXSHADE({0.5,0.5},{0.05,0.05,0.05,0.05,0.05,0.05,0.05,0.05,0.05,0.05,0.05,0.05,0.05,0.05,0.05,0.05;0.6,0.6,0.6,0.6,0.6,0.6,0.6,0.6,0.6,0.6,0.6,0.6,0.6,0.6,0.6,0.6},"fibre","reflectance"),1,16),6) → 0.126856
 * @see STEARNS-NOECHEL-1944, FRIELE-1952, BURNS-2017, CIE-15, MEMORY
 */
export function mixShade(
  shares: any[][],
  solids: any[][],
  model?: any[][],
  result?: any[][],
  light?: any[][],
): any[][] {
  const lamp = oneOr({ light }, lightWord, DAYLIGHT);
  const law = oneOr({ model }, blendModel, FIBRE_MODEL);
  const { reflectances, along } = solidShades({ solids }, lamp);
  const recipes = recipeRows({ shares }, along);
  const reflectance = (recipe: number[]): number[] => Array.from(shade.blended(recipe, reflectances, law));
  const shades =
    oneOr({ result }, shadeForm, "lab") === "reflectance"
      ? liftRows(shade.BANDS, reflectance, recipes)
      : liftRows(3, (recipe) => shade.labOf(reflectance(recipe), lamp), recipes);
  return withNames(shades, recipes.names, undefined);
}

/**
 * Constant M of the blend model that fits your own carded pads best. For a start recipe for a hand-carded pad, not an approval.
 * @customfunction MIXFIT
 * @param {any[][]} shares Mass shares of the pads, 0 to 1: one row per pad, one column per solid, rows sum to 1.
 * @param {any[][]} solids One solid a row: reflectance in 31 or 16 bands (400 to 700 nm), or L*, a*, b*.
 * @param {any[][]} blends The shade measured on each pad, one a row: reflectance or L*, a*, b*.
 * @param {any[][]} [result] "constant" (default): M for the argument model; or "difference": what is left, CIEDE2000.
 * @param {any[][]} [light] Light and observer; default "D65/10".
 * @returns {any[][]} One number: M, or the root mean square difference of the pads from the model with that M.
 * @remarks Least squares of CIEDE2000 over the pads, M from 0.01 to 1, model F = (1-R)/(M(R-0.01)+0.01). Five pads that include white with very dark bring the standard deviation of M to about 0.007. A start recipe for a hand-carded pad, not an approval.
 * @throws #VALUE! when shares and solids or pads do not match; #N/A when the pads do not settle a constant.
 * @example =YARN.MIXFIT({0.5,0.5},{24,0,0;82,0,0},{45,0,0}) → 0.074
 * @see STEARNS-NOECHEL-1944, SHARMA-2005
 */
export function mixFit(shares: any[][], solids: any[][], blends: any[][], result?: any[][], light?: any[][]): any[][] {
  const lamp = oneOr({ light }, lightWord, DAYLIGHT);
  const { reflectances, along } = solidShades({ solids }, lamp);
  const wanted = oneOr({ result }, fitForm, "constant");
  const carded = pads({ shares }, { blends }, along, lamp);
  return finiteRows([[shade.fittedFibreConstant(carded, reflectances, lamp)[wanted]]]);
}

/**
 * Shares of the dyed solids that come nearest to a target shade. A start recipe for a hand-carded pad, not an approval.
 * @customfunction MIXMATCH
 * @param {any[][]} target Target shade along a row: reflectance 0 to 1 in 31 or 16 bands (400 to 700 nm), or L*, a*, b*. Several rows: several targets. A first column of names may come along.
 * @param {any[][]} solids One solid a row, in the same forms, with a first column of names if you like.
 * @param {any[][]} [parts] Most solids in the recipe; default 4.
 * @param {any[][]} [min_share] Least share of a solid that is used, 0 to 1; default 0. One per solid: the least share of that solid in any case, such as a leftover or a batch to be kept.
 * @param {any[][]} [model] Blend model: "fibre" (default), "exponential", "ks", or the constant M from MIXFIT.
 * @param {any[][]} [light] Light and observer; default "D65/10". Several lights: the mean square of their differences counts.
 * @param {any[][]} [step] Shares in whole multiples of this, such as 0.01; default any share.
 * @param {any[][]} [max_share] Greatest share of a solid, 0 to 1; one cell for all or one per solid, 0 for one that is not to be had; default 1.
 * @returns {any[][]} Column of mass shares in the order of the solids, 0 where not used. With several targets, or with names: one recipe a row, the names of solids above and of targets before, as MIXSHADE and MIXNEED take it.
 * @remarks Smallest CIEDE2000 over all sets of at most "parts" solids: least squares over the shares, refined and polished on the true difference; of equal matches the one whose reflectance is nearest. Over 2,000 sets the 1,000 best by least squares are refined, over 100,000 solids are added and exchanged one at a time: MIXCHOICES then says near-best or heuristic. L*a*b* rows get the smoothest reflectance of that shade, and tell nothing of other lights. A start recipe for a hand-carded pad, not an approval; see MIXSHADE for the errors of the models, whose constants are from memory, verify before use.
 * @throws #VALUE! when a row is neither a reflectance nor L*a*b*, no surface has the shade, or step does not go into 1. #N/A when min_share and max_share leave no recipe.
 * @example =YARN.MIXMATCH({72,9,10},{"solid","L*","a*","b*";"cream",85,0,8;"red",45,30,15;"grey",60,0,0}) → {"cream","red","grey";0.7927,0.1042,0.1031}
 * @example =YARN.MIXMATCH(YARN.MIXSHADE({0.7;0.3},{85,0,8;45,30,15}),{85,0,8;45,30,15},2,0,"fibre","D65/10",0.05) → {0.7;0.3}
 * @see STEARNS-NOECHEL-1944, FRIELE-1952, BURNS-2017, SHARMA-2005, CIE-15, MEMORY
 */
export function mixMatch(
  target: any[][],
  solids: any[][],
  parts?: any[][],
  min_share?: any[][],
  model?: any[][],
  light?: any[][],
  step?: any[][],
  max_share?: any[][],
): any[][] {
  const terms = matchTerms({ solids, parts, min_share, model, light, step, max_share });
  const shares = ({ reflectance }: Aim): readonly number[] => {
    const wish = { ...terms, target: reflectance };
    const best = bestRecipe(wish);
    shade.expectInReach(shade.ranking(wish)(best));
    return best.shares;
  };
  const targets = shadeColumn({ target }, terms.aim);
  if (terms.solids.length === 1 && targets.rows > 1) {
    refuse("solids", `one beside ${targets.rows} targets`, "give two or more, one a row; swapped with target?");
  }
  const given = targets.items.filter(([row]) => !(row as Cell[]).every(isBlank));
  expectTargets(given.length, terms.solids.length, terms.parts, terms.effort);
  const rows = liftRows(terms.solids.length, shares, targets);
  if (targets.rows > 1 || targets.names) return withNames(rows, targets.names, terms.along.names);
  return recipeColumn(rows, terms.along);
}

function bestRecipe(wish: Omit<shade.MatchWish, "choices">): shade.Recipe {
  return firstOf(shade.bestRecipes({ ...wish, choices: 1 }).recipes);
}

/** A single recipe: a row under the names of its solids, or without names a column along them. */
function recipeColumn(rows: Results, { names, blanks }: Along): Results {
  return names ? withNames(rows, undefined, names) : inPlaces(blanks, transposed(rows));
}

/**
 * Table of the nearest recipes for a target shade, each of other solids, with shades, differences and cost. A start recipe for a hand-carded pad, not an approval.
 * @customfunction MIXCHOICES
 * @param {any[][]} target Target shade along one row: reflectance 0 to 1 in 31 or 16 bands (400 to 700 nm), or L*, a*, b*.
 * @param {any[][]} solids One solid a row, in the same forms, with a first column of names if you like.
 * @param {any[][]} [parts] Most solids in a recipe; default 4.
 * @param {any[][]} [min_share] Least share of a solid that is used, 0 to 1; default 0. One per solid: the least share of that solid in any case, such as a leftover or a batch to be kept.
 * @param {any[][]} [model] Blend model: "fibre" (default), "exponential", "ks", or the constant M from MIXFIT.
 * @param {any[][]} [light] Light and observer; default "D65/10". Several lights: the mean square of their differences counts.
 * @param {any[][]} [step] Shares in whole multiples of this, such as 0.01; default any share.
 * @param {any[][]} [prices] Price of each solid per kg, in the order of the solids; left out: no cost column.
 * @param {any[][]} [choices] Most recipes to show; default 5. The best of each number of solids is among them, as far as there is room.
 * @param {any[][]} [max_share] Greatest share of a solid, 0 to 1; one cell for all or one per solid, 0 for one that is not to be had; default 1.
 * @param {any[][]} [within] Difference (CIEDE2000, above 0) that is good enough: the cheapest recipes within it are shown, cheapest first; needs prices. Left out: nearest first.
 * @returns {any[][]} Header row, then one row per recipe, nearest first: choice, share of each solid under its name, L*, a*, b*, difference, worst difference in another light, note, cost per kg; with several lights the difference in each further one and the one that ranks.
 * @remarks Search and models as in MIXMATCH. With several lights the root mean square of their differences ranks. The note says out of reach and by how much (when the nearest recipe is over 2 units off), reflectance over 1 (a brightener, or wrongly measured), near-best (over 2,000 sets of solids; the cheapest in steps), heuristic (over 100,000) and L*a*b* only (a row was L*a*b*: then other lights tell nothing and the column is blank). The worst difference is CIEDE2000 under the worst of D65, A, F2 and F11 other than the light given, same observer. Differences equal to some thousandths rank by the nearer reflectance. Cost = Σ share × price, not rounded. A start recipe for a hand-carded pad, not an approval.
 * @throws #VALUE! when a row is neither a reflectance nor L*a*b*, no surface has the shade, prices do not match, or step does not go into 1. #N/A when min_share and max_share leave no recipe, or none is within the difference.
 * @example =YARN.MIXCHOICES({72,9,10},{"solid","L*","a*","b*";"cream",85,0,8;"red",45,30,15;"grey",60,0,0}) → {"choice","cream (share)","red (share)","grey (share)","L*","a*","b*","difference (CIEDE2000, D65/10)","worst difference in another light (CIEDE2000)","note";1,0.7927,0.1042,0.1031,72.7593,9.13,7.6721,1.9342,"","L*a*b* only";2,0.8865,0.1135,0,75.0183,10.9231,9.2178,3.0768,"","L*a*b* only";3,1,0,0,85,0,8,14.1403,"","L*a*b* only"}
 * @example =ROUND(INDEX(YARN.MIXCHOICES({50,0,0},{50,0,0;70,30,10},,,,,,{12.5,30}),2,10),2) → 12.5
 * @see STEARNS-NOECHEL-1944, FRIELE-1952, BURNS-2017, SHARMA-2005, CIE-15, MEMORY
 */
export function mixChoices(
  target: any[][],
  solids: any[][],
  parts?: any[][],
  min_share?: any[][],
  model?: any[][],
  light?: any[][],
  step?: any[][],
  prices?: any[][],
  choices?: any[][],
  max_share?: any[][],
  within?: any[][],
): any[][] {
  const terms = matchTerms({ solids, parts, min_share, model, light, step, max_share });
  const aim = oneShade({ target }, terms.aim);
  const cost = listOr(alongside({ prices }, notNegative, "price", terms.along), notNegative, undefined);
  if (cost) sameLength("solids", terms.solids.length, "prices", cost.length);
  const wish = { ...terms, target: aim.reflectance, choices: oneOr({ choices }, wholeNumber, 5) };
  const limit = oneOr({ within }, positive, undefined);
  const found =
    limit === undefined ? shade.choicesOfEachSize(wish) : shade.cheapestRecipes(wish, pricesFor(cost), limit);
  if (limit !== undefined && found.recipes.length === 0) refuseOutOf(wish, limit);
  firstOf(found.recipes);
  return finiteRows(
    shade.choicesTable(wish, found, {
      measured: aim.measured && terms.measured,
      overWhite: aim.overWhite || terms.overWhite,
      names: terms.along.names,
      prices: cost,
    }),
  );
}

function pricesFor(prices: number[] | undefined): number[] {
  return prices ?? refuse("prices", "blank", "give them: within asks for the cheapest");
}

function refuseOutOf(wish: shade.MatchWish, limit: number): never {
  const nearest = shade.ranking(wish)(firstOf(shade.bestRecipes(wish).recipes));
  return absent("within", String(limit), `the nearest recipe is ${Number(nearest.toPrecision(3))} off`);
}

/**
 * Correction of a blended batch by additions only: kg of each dyed solid to add, shade and difference before and after. Card a pad before you add.
 * @customfunction MIXADD
 * @param {any[][]} target Target shade along one row: reflectance 0 to 1 in 31 or 16 bands (400 to 700 nm), or L*, a*, b*.
 * @param {any[][]} batch Shade of the batch as it is, in the same forms: measured on a carded sample of it.
 * @param {any[][]} batch_mass Mass of the batch in kg (or another unit: additions are in it), more than 0.
 * @param {any[][]} solids Solids that may be added, one a row, in the same forms, with a first column of names if you like.
 * @param {any[][]} [most] Greatest addition in kg; one cell for all or one per solid, 0 for none; default the mass of the batch.
 * @param {any[][]} [model] Blend model: "fibre" (default), "exponential", "ks", or the constant M from MIXFIT.
 * @param {any[][]} [light] Light and observer; default "D65/10". Several lights: the mean square of their differences counts.
 * @param {any[][]} [step] Additions in whole multiples of this, in kg, such as 0.5; default any.
 * @returns {any[][]} Header row and two rows, before and after: kg of each solid added, mass, L*, a*, b*, difference, note; with several lights the difference in each further one and the one that ranks.
 * @remarks The batch of mass B with additions a is a blend of B/(B + Σa) of itself and a/(B + Σa) of each solid. Nothing is ever taken out; at most three solids are added, the best of all sets of three. The note says nothing helps where no addition brings the shade nearer, out of reach where it stays over 2 units off, and at the most where an addition is held back by its limit. All masses at one regain. A start for a hand-carded pad of batch and additions, not an approval; the models and their constants as in MIXSHADE.
 * @throws #VALUE! when a row is neither a reflectance nor L*a*b*, no surface has the shade, or most does not match the solids.
 * @example =YARN.MIXADD({72,9,10},{76,6,9},100,{"solid","L*","a*","b*";"cream",85,0,8;"red",45,30,15;"grey",60,0,0}) → {"batch","cream added (kg)","red added (kg)","grey added (kg)","mass (kg)","L*","a*","b*","difference (CIEDE2000, D65/10)","note";"before",0,0,0,100,76,6,9,4.2277,"";"after",0,5.1671,2.7218,107.8889,72.4237,9.0406,8.9905,0.8498,"L*a*b* only"}
 * @example =ROUND(INDEX(YARN.MIXADD(YARN.MIXSHADE({0.8;0.2},{60,0,0;20,0,0}),{60,0,0},100,{20,0,0;90,0,0}),3,2),2) → 25
 * @see STEARNS-NOECHEL-1944, FRIELE-1952, BURNS-2017, SHARMA-2005, CIE-15, MEMORY
 */
export function mixAdd(
  target: any[][],
  batch: any[][],
  batch_mass: any[][],
  solids: any[][],
  most?: any[][],
  model?: any[][],
  light?: any[][],
  step?: any[][],
): any[][] {
  const terms = correctionTerms({ solids, model, light });
  const [aim, present] = [oneShade({ target }, terms.aim), oneShade({ batch }, terms.aim)];
  const batchMass = one({ batch_mass }, positive);
  const limits = eachAlong({ most }, blankIs(notNegative, 0), batchMass, "most", terms.along);
  const wish = {
    ...{ ...terms, target: aim.reflectance, batch: present.reflectance, batchMass, most: limits },
    step: oneOr({ step }, notNegative, 0),
  };
  return finiteRows(
    shade.additionsTable(wish, shade.bestAdditions(wish), {
      measured: aim.measured && present.measured && terms.measured,
      overWhite: aim.overWhite || present.overWhite || terms.overWhite,
      names: terms.along.names,
    }),
  );
}

/**
 * Corrected shares of the dyed solids from a carded pad that was measured. A start recipe for the next hand-carded pad, not an approval.
 * @customfunction MIXCORRECT
 * @param {any[][]} target Target shade along one row: reflectance 0 to 1 in 31 or 16 bands (400 to 700 nm).
 * @param {any[][]} shares Mass shares that the pad was carded from, 0 to 1, summing to 1: a list, one per solid.
 * @param {any[][]} pad Reflectance measured on the pad, along one row.
 * @param {any[][]} solids One solid a row: reflectance in 31 or 16 bands, with a first column of names if you like.
 * @param {any[][]} [parts] Most solids in the recipe; default 4.
 * @param {any[][]} [min_share] Least share of a solid that is used, 0 to 1; default 0. One per solid: the least share of that solid in any case.
 * @param {any[][]} [model] Blend model: "fibre" (default), "exponential", "ks", or the constant M from MIXFIT.
 * @param {any[][]} [light] Light and observer; default "D65/10". Several lights: the mean square of their differences counts.
 * @param {any[][]} [step] Shares in whole multiples of this, such as 0.01; default any share.
 * @param {any[][]} [max_share] Greatest share of a solid, 0 to 1; one cell for all or one per solid, 0 for one that is not to be had; default 1.
 * @returns {any[][]} Column of mass shares in the order of the solids, 0 where not used; with names of solids one row under them.
 * @remarks What the model predicts for the shares, divided by what was measured on the pad, band by band, is carried into the target, and that is matched as in MIXMATCH: the model's own error at this shade falls out. Reflectance only, because L*a*b* tells nothing of a band. Card and measure again: one correction brings most shades within a few tenths.
 * @throws #VALUE! when a row is no reflectance, shares do not sum to 1 or do not match the solids, or the pad is over 15 units off what the shares predict. #N/A when min_share and max_share leave no recipe.
 * @example =YARN.MIXCORRECT({0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2},{0.5;0.5},{0.21,0.21,0.21,0.21,0.21,0.21,0.21,0.21,0.21,0.21,0.21,0.21,0.21,0.21,0.21,0.21},{"grey",0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1;"cream",0.5,0.5,0.5,0.5,0.5,0.5,0.5,0.5,0.5,0.5,0.5,0.5,0.5,0.5,0.5,0.5}) → {"grey","cream";0.5339,0.4661}
 * @see STEARNS-NOECHEL-1944, FRIELE-1952, SHARMA-2005, CIE-15, MEMORY
 */
export function mixCorrect(
  target: any[][],
  shares: any[][],
  pad: any[][],
  solids: any[][],
  parts?: any[][],
  min_share?: any[][],
  model?: any[][],
  light?: any[][],
  step?: any[][],
  max_share?: any[][],
): any[][] {
  const terms = matchTerms({ solids, parts, min_share, model, light, step, max_share });
  if (!terms.measured) refuse("solids", "L*a*b* in part", "must be reflectances: a pad corrects band by band");
  const [aim, measured] = [oneShade({ target }, reflectanceRow), oneShade({ pad }, reflectanceRow)];
  const recipe = oneRecipe({ shares }, terms.along);
  const lamp = terms.lights[0] as Light;
  const predicted = shade.blended(recipe, terms.solids, terms.model);
  const corrected = shade.correctedTarget(aim, predicted, measured, lamp);
  return recipeColumn([[...bestRecipe({ ...terms, target: corrected }).shares]], terms.along);
}

/**
 * Colour difference between two shades given as L*a*b*, standard first; CIEDE2000 unless said otherwise.
 * @customfunction SHADEDIFF
 * @param {any[][]} lab_1 Standard: L*, a*, b* along a row; one row per pair, or one row for all.
 * @param {any[][]} lab_2 Sample: L*, a*, b* along a row.
 * @param {any[][]} [formula] "2000" (default), "CMC 2:1", "CMC 1:1", "1994", "1994 textiles", "1976".
 * @returns {any[][]} One difference per pair.
 * @remarks All factors 1 but those named. CMC and 1994 weigh by the standard's chroma, so they are not symmetric. "1994" has the reference constants (1, 0.045, 0.015), "1994 textiles" those for textiles (2, 0.048, 0.014); both and CMC as public colour libraries write them. Both shades must be in the same light and observer.
 * @throws #VALUE! when a row is not three numbers, L* is not 0 to 110 or the formula is unknown.
 * @example =YARN.SHADEDIFF({50,20,30},{51,21,28}) → 1.8364
 * @example =YARN.SHADEDIFF({50,20,30},{51,21,28},"CMC 2:1") → 2.5139
 * @see SHARMA-2005, CIE-15, ISO-105-J03
 */
export function shadeDiff(lab_1: any[][], lab_2: any[][], formula?: any[][]): any[][] {
  return lift(
    (standard, sample, difference) => {
      expectScale(standard, sample);
      return difference(standard, sample);
    },
    shadeColumn({ lab_1 }, labRow),
    shadeColumn({ lab_2 }, labRow),
    optional({ formula }, differenceFormula, shade.difference2000),
  );
}

/**
 * Parts of the difference between shades given as L*a*b* (dL*, da*, db*, dC*, dH*, sample less standard), and their words.
 * @customfunction SHADEPARTS
 * @param {any[][]} lab_standard Standard: L*, a*, b* along a row; one row per pair, or one row for all.
 * @param {any[][]} lab_sample Sample: L*, a*, b* along a row; a first column of names may come along.
 * @returns {any[][]} Header row, one row per sample: dL*, da*, db*, dC*, dH*, then lighter or darker, brighter or duller, and which way the hue goes; after the names if given.
 * @remarks dH* = 2√(C1·C2)·sin(dh/2), positive from red over yellow and green to blue. Words are common practice, no source: a part under 0.05 is "same"; the hue goes towards the next of red, yellow, green and blue; of a standard with C* under 5 the larger of da* and db* names it. Both shades must be in the same light and observer.
 * @throws #VALUE! when a row is not three numbers or L* is not 0 to 110; one bad row gives an error in its own row.
 * @example =YARN.SHADEPARTS({60,0,10},{58,0,12}) → {"dL*","da*","db*","dC*","dH*","lightness","chroma","hue";-2,0,2,2,0,"darker","brighter","same"}
 * @example =INDEX(YARN.SHADEPARTS({60,0,10},{58,0,12}),2,6) → "darker"
 * @see CIE-15, PRACTICE
 */
export function shadeParts(lab_standard: any[][], lab_sample: any[][]): any[][] {
  const samples = shadeColumn({ lab_sample }, labRow);
  const parts = (standard: shade.Lab, sample: shade.Lab): Result[] => {
    expectScale(standard, sample);
    const { lightness, a, b, chroma, hue } = shade.shadeParts(standard, sample);
    const words = shade.shadeWords(standard, { lightness, a, b, chroma, hue });
    return [lightness, a, b, chroma, hue, ...words];
  };
  const rows = liftRows(8, parts, shadeColumn({ lab_standard }, labRow), samples);
  const header = ["dL*", "da*", "db*", "dC*", "dH*", "lightness", "chroma", "hue"];
  return withNames([header, ...rows], samples.names && ["sample", ...samples.names], undefined);
}

/**
 * Shade block of each lot, three digits, 555 for the block of the standard, from L*a*b* and the widths of a block.
 * @customfunction SHADESORT
 * @param {any[][]} labs Lots, one a row: L*, a*, b*; a first column of names may come along.
 * @param {any[][]} standard Standard: L*, a*, b* along one row.
 * @param {any[][]} widths Widths of a block in the three differences, more than 0: three numbers, or one for all.
 * @param {any[][]} [axes] Which differences: "lch" (default) for dL*, dC*, dH*; "lab" for dL*, da*, db*.
 * @returns {any[][]} One block per lot, a number of three digits from 1 to 9; after its name if given.
 * @remarks Each digit is 5 and as many whole blocks as the lot is away from the standard, more upwards; half a width from the middle begins the next block. Lots of one block differ by at most a width in each difference. The sorting is common practice, no source; widths are agreed between buyer and seller. Look at the lots side by side all the same.
 * @throws #VALUE! when a row is not three numbers or a width is not above 0; #N/A for a lot more than 4 blocks away.
 * @example =YARN.SHADESORT({60,0,10;61.2,0,10;60,0,8.6},{60,0,10},1) → {555;655;545}
 * @example =YARN.SHADESORT({60,0.8,10},{60,0,10},{1,0.5,0.5},"lab") → 575
 * @see PRACTICE, CIE-15
 */
export function shadeSort(labs: any[][], standard: any[][], widths: any[][], axes?: any[][]): any[][] {
  const lots = shadeColumn({ labs }, labRow);
  const middle = oneShade({ standard }, labRow);
  const given = list({ widths }, positive);
  const own = given.length === 1 ? [...given, ...given, ...given] : given;
  const each = three("widths", own, "give three, or one for all");
  const along = oneOr({ axes }, blockAxes, shade.CYLINDER);
  const blocks = lift((lot) => shade.shadeBlock(lot, middle, each, along), lots);
  return withNames(blocks, lots.names, undefined);
}

/**
 * Grey-scale rating for change in colour or for staining, 5 (none) to 1, from the L*a*b* of standard and sample.
 * @customfunction GREYSCALE
 * @param {any[][]} lab_standard Standard: L*, a*, b* along a row; one row per pair, or one row for all.
 * @param {any[][]} lab_sample Sample: L*, a*, b* along a row.
 * @param {any[][]} [result] "rating" (default) of change in colour: a number; "step": one of the nine steps as text, such as "3-4"; "staining" and "staining step" likewise for an adjacent fabric.
 * @returns {any[][]} One rating per pair.
 * @remarks Change: 5 - ΔE_F/1.7 for ΔE_F up to 3.4, else 5 - log2(ΔE_F/0.85), not below 1. Steps by ΔE_F below 0.40, 1.25, 2.10, 2.95, 4.10, 5.80, 8.20, 11.60; for greys ΔE_F is the difference in L*. Staining: ΔE_GS = ΔE - 0.4√(ΔE² - ΔL²), rating 6.1 - 1.45 ln ΔE_GS, where that passes 4 it is 5 - 0.23 ΔE_GS, not below 1; steps change at quarters. Both as public programs write the standards: hold the standard itself against it before a dispute.
 * @throws #VALUE! when a row is not three numbers, L* is not 0 to 110 or the result word is unknown.
 * @example =YARN.GREYSCALE({60,0,0},{63.4,0,0}) → 3.0
 * @example =YARN.GREYSCALE({60,0,0},{62.5,0,0},"step") → "3-4"
 * @example =YARN.GREYSCALE({90,0,0},{84,0,0},"staining step") → "3-4"
 * @see ISO-105-A05, ISO-105-A04, ISO-105-A02
 */
export function greyScale(lab_standard: any[][], lab_sample: any[][], result?: any[][]): any[][] {
  return lift(
    (standard, sample, form) => {
      expectScale(standard, sample);
      return form(standard, sample);
    },
    shadeColumn({ lab_standard }, labRow),
    shadeColumn({ lab_sample }, labRow),
    optional({ result }, greyScaleForm, CHANGE_IN_COLOUR),
  );
}

/**
 * Is a sample within tolerance of the standard? TRUE or FALSE by colour difference, in one light or in several.
 * @customfunction SHADEPASS
 * @param {any[][]} lab_standard Standard: L*, a*, b* along a row; one row per pair, or one row for all. With light: reflectance in 31 or 16 bands.
 * @param {any[][]} lab_sample Sample, likewise.
 * @param {any[][]} tolerance Largest difference that passes, in units of the formula; more than 0. With light: one for all lights or one per light. With "half-axes": three, for dL*, dC* and dH*.
 * @param {any[][]} [formula] "2000" (default), "CMC 2:1", "CMC 1:1", "1994", "1994 textiles", "1976"; or "half-axes".
 * @param {any[][]} [light] Lights and observer in which it must pass, such as {"D65/10","A/10"}; left out: the light of the L*a*b*.
 * @returns {any[][]} TRUE or FALSE per pair.
 * @remarks A difference equal to the tolerance passes. "half-axes": (dL* ÷ t1)² + (dC* ÷ t2)² + (dH* ÷ t3)² at most 1, the ellipsoid that CMC draws around a standard, with the half-axes agreed for this shade. Tolerance and formula are agreed between buyer and seller; there is no default tolerance. An instrument's pass does not replace looking at the shade.
 * @throws #VALUE! when a row is not three numbers (with light: not a reflectance), tolerance is not above 0 or there are too many or too few, or a word is unknown.
 * @example =YARN.SHADEPASS({50,20,30},{51,21,28},2) → TRUE
 * @example =YARN.SHADEPASS({50,20,30},{51,21,28},2,"CMC 2:1") → FALSE
 * @example =YARN.SHADEPASS({50,20,30},{51,21,28},{2,3,3},"half-axes") → TRUE
 * @see SHARMA-2005, CIE-15, ISO-105-J03
 */
export function shadePass(
  lab_standard: any[][],
  lab_sample: any[][],
  tolerance: any[][],
  formula?: any[][],
  light?: any[][],
): any[][] {
  const lights = listOr({ light }, lightWord, undefined);
  const isOne = formula?.length === 1 && formula[0]?.length === 1;
  const halfAxes = isOne && oneOr({ formula }, toleranceFormula, undefined) === HALF_AXES;
  // The last digits of a subtraction must not fail a sample that is just on the limit.
  const within = (difference: number, limit: number): boolean => difference <= limit * (1 + 1e-9);
  if (lights === undefined && !halfAxes) {
    return lift(
      (standard, sample, limit, difference) => {
        expectScale(standard, sample);
        return within(difference(standard, sample), limit);
      },
      shadeColumn({ lab_standard }, labRow),
      shadeColumn({ lab_sample }, labRow),
      required({ tolerance }, shadeTolerance),
      optional({ formula }, toleranceFormula, shade.difference2000),
    );
  }
  const limits = list({ tolerance }, shadeTolerance);
  if (lights === undefined) {
    const [first, second, third] = three("tolerance", limits, "give three half-axes, for dL*, dC*, dH*");
    return lift(
      (standard, sample) => {
        expectScale(standard, sample);
        const { lightness, chroma, hue } = shade.shadeParts(standard, sample);
        return within(Math.sqrt((lightness / first) ** 2 + (chroma / second) ** 2 + (hue / third) ** 2), 1);
      },
      shadeColumn({ lab_standard }, labRow),
      shadeColumn({ lab_sample }, labRow),
    );
  }
  if (halfAxes) refuse("formula", '"half-axes"', "they belong to one light: leave light out");
  const difference = oneOr({ formula }, toleranceFormula, shade.difference2000);
  const each = limits.length === 1 ? lights.map(() => limits[0] as number) : limits;
  sameLength("light", lights.length, "tolerance", each.length);
  return lift(
    (standard, sample) =>
      lights.every((lamp, place) =>
        within(difference(shade.labOf(standard, lamp), shade.labOf(sample, lamp)), each[place] as number),
      ),
    shadeColumn({ lab_standard }, reflectanceRow),
    shadeColumn({ lab_sample }, reflectanceRow),
  );
}

/**
 * L*a*b* of a measured reflectance, under a light and observer.
 * @customfunction LABOF
 * @param {any[][]} reflectance Reflectance factors 0 to 1 along a row; one row per shade.
 * @param {any[][]} [light] Light and observer: "D65/10" (default), "A/10", "F11/10" (also "TL84/10"), "LED-B3/10" or another of the list; with /2 for the 2-degree observer.
 * @param {any[][]} [first_nm] Wavelength of the first band, nm; default 400 for 31 or 16 bands.
 * @param {any[][]} [step_nm] Step between bands, nm; default 10 for 31 bands, 20 for 16.
 * @returns {any[][]} One row per shade: L*, a*, b*.
 * @remarks Tristimulus weights of 31 bands, 400 to 700 nm by 10, made from the CIE tables; white is their sum. Rows with other bands are interpolated (cubic); bands outside the row take the nearest value. Weights made elsewhere differ by some hundredths of a unit. Lights: D65 and D50 daylight, A incandescent, F2 cool white (CWF), F7 daylight tube, F11 (TL84), F12 (TL83), and the typical LEDs of CIE 15: LED-B1 2733 K, LED-B2 2998 K, LED-B3 4103 K, LED-B4 5109 K, LED-B5 6598 K, LED-BH1 with red 2851 K, LED-RGB1 2840 K, LED-V1 violet 2724 K, LED-V2 4070 K. Shop names are common practice, no source; a lamp in a cabinet is like its CIE light, not equal to it.
 * @throws #VALUE! when a band is not 0 to 1.5, the bands are not 31 or 16 and first_nm or step_nm is missing, or the light is unknown.
 * @example =YARN.LABOF({0.05,0.05,0.05,0.06,0.06,0.07,0.08,0.1,0.14,0.2,0.28,0.34,0.38,0.4,0.42,0.43},"D65/10") → {46.3278,26.7137,30.9851}
 * @example =ROUND(INDEX(YARN.LABOF({0.2,0.2,0.2,0.2},"D65/10",400,100),1,1),3) → 51.837
 * @see CIE-15, PRACTICE
 */
export function labOf(reflectance: any[][], light?: any[][], first_nm?: any[][], step_nm?: any[][]): any[][] {
  return liftRows(
    3,
    ({ bands, grid }, lamp, first = grid?.first, step = grid?.step) =>
      shade.labOf(shade.onUsualBands(bands, first, step), lamp),
    shadeColumn({ reflectance }, ownBandsRow),
    optional({ light }, lightWord, DAYLIGHT),
    optional<number | undefined>({ first_nm }, wavelength, undefined),
    optional<number | undefined>({ step_nm }, wavelengthStep, undefined),
  );
}

/**
 * L*a*b* of a screen colour (sRGB), sketch quality: a starting idea, never a shade to match to.
 * @customfunction LABFROMRGB
 * @param {any[][]} hex_or_r Text "#RRGGBB", or the red channel, 0 to 255.
 * @param {any[][]} [g] Green channel, 0 to 255; needed when hex_or_r is a number.
 * @param {any[][]} [b] Blue channel, 0 to 255; needed when hex_or_r is a number.
 * @returns {any[][]} One row per colour: L*, a*, b*.
 * @remarks Sketch quality: a screen is not a dyed fibre, and this L*a*b* is for daylight and the 2-degree observer of sRGB, with the screen's white as white. The sRGB constants are from memory, verify before use.
 * @throws #VALUE! when the text is not a hex colour, or a channel is missing or not 0 to 255.
 * @example =YARN.LABFROMRGB("#8A3D24") → {35.7308,31.0764,30.6978}
 * @example =ROUND(INDEX(YARN.LABFROMRGB(119,119,119),1,1),2) → 50.03
 * @see IEC-61966-2-1, CIE-15, MEMORY
 */
export function labFromRgb(hex_or_r: any[][], g?: any[][], b?: any[][]): any[][] {
  return liftRows(
    3,
    (first, green, blue) => shade.labOfRgb(...channelsGiven(first, green, blue)),
    required({ hex_or_r }, hexOrRed),
    optional<number | undefined>({ g }, channel, undefined),
    optional<number | undefined>({ b }, channel, undefined),
  );
}

/**
 * Screen colour #RRGGBB (sRGB) of a shade given as L*a*b*, sketch quality: for a swatch beside the numbers.
 * @customfunction LABTORGB
 * @param {any[][]} lab L*, a*, b* along a row; one row per shade.
 * @returns {any[][]} Text "#RRGGBB" per shade.
 * @remarks Sketch quality: a shade the screen cannot show gets the nearest value in each channel. L*a*b* is taken as if for daylight and the 2-degree observer of sRGB. The sRGB constants are from memory, verify before use.
 * @throws #VALUE! when a row is not three numbers or L* is not 0 to 110.
 * @example =YARN.LABTORGB({53.585,0,0}) → "#808080"
 * @see IEC-61966-2-1, CIE-15, MEMORY
 */
export function labToRgb(lab: any[][]): any[][] {
  return lift(shade.hexOfLab, shadeColumn({ lab }, labRow));
}

/**
 * How far two reflectances that match in one light part in another (CIEDE2000): index of metamerism.
 * @customfunction METAMERISM
 * @param {any[][]} reflectance_1 Standard: reflectance 0 to 1 in 31 or 16 bands along a row (400 to 700 nm); one row per pair, or one row for all.
 * @param {any[][]} reflectance_2 Sample, likewise.
 * @param {any[][]} light_1 Light in which they match, such as "D65/10".
 * @param {any[][]} light_2 Light in which they are compared, such as "A/10".
 * @returns {any[][]} One index per pair; 0 for none.
 * @remarks Special index for a change of light: what the pair differs by in light_1 is taken out by scaling X, Y, Z of the sample, then CIEDE2000 in light_2. Needs measured reflectances; a reflectance rebuilt from L*a*b* tells nothing of another light, so L*a*b* is refused.
 * @throws #VALUE! when a row is L*a*b* or is not 31 or 16 bands, a light is unknown, or the two have not the same observer.
 * @example =YARN.METAMERISM({0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2,0.2},{0.24,0.22,0.2,0.18,0.19,0.2,0.21,0.21,0.2,0.19,0.19,0.2,0.21,0.21,0.2,0.19},"D65/10","A/10") → 0.5694
 * @see CIE-15, SHARMA-2005
 */
export function metamerism(
  reflectance_1: any[][],
  reflectance_2: any[][],
  light_1: any[][],
  light_2: any[][],
): any[][] {
  return lift(
    (standard, sample, matched, compared) => {
      if (observerOf(matched) !== observerOf(compared)) {
        refuse("light_2", `"${compared.word}"`, `must have the observer of light_1, ${matched.word}`);
      }
      return shade.metamerism(standard, sample, matched, compared);
    },
    shadeColumn({ reflectance_1 }, reflectanceRow),
    shadeColumn({ reflectance_2 }, reflectanceRow),
    required({ light_1 }, lightWord),
    required({ light_2 }, lightWord),
  );
}
