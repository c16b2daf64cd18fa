import * as counting from "../trade/counts";
import * as spinning from "../trade/spinning";
import type { CountSystem } from "../tables/count-systems";
import { one, oneOr, optional, required, tableInPlace } from "../sheet/arguments";
import { blankIs, positive, takeUp, wholeNumber, wholeThat, word } from "../sheet/kinds";
import { finiteRows, lift } from "../sheet/lift";
import { inPlaces } from "../sheet/shape";
import { machineWaste } from "../sheet/spinning";
import { countSystem } from "../sheet/units";
import { wordsFor } from "../sheet/words";

/** Count of one strand that is fed. */
const fed = (count: number, system: CountSystem): number => counting.expectCount("count_in", count, system);
const wheelTeeth = wholeThat(
  "must be a whole number of teeth, 8 to 400, as wheels have",
  (value) => value >= 8 && value <= 400,
);
const constantKind = word<spinning.ConstantKind>(wordsFor("kind", "draft", "twist", "driven"));
const wheelKind = word<spinning.WheelKind>(wordsFor("kind", "draft", "twist"));

/**
 * Draft between two pairs of rollers: front surface speed over back surface speed.
 * @customfunction ROLLDRAFT
 * @param {any[][]} front_diameter Diameter of the front (delivering) roller; more than 0.
 * @param {any[][]} front_rpm Its revolutions a minute; more than 0.
 * @param {any[][]} back_diameter Diameter of the back (feeding) roller, in the same unit; more than 0.
 * @param {any[][]} back_rpm Its revolutions a minute; more than 0.
 * @returns {any[][]} Draft, a ratio, in the shape of the arguments.
 * @remarks Mechanical draft = (front diameter × rpm)/(back diameter × rpm). Waste and the take-up of twist make the
 * counts differ from it: see DRAFT.
 * @throws #VALUE! when a number is not above 0.
 * @example =YARN.ROLLDRAFT(1,90,1.25,3) → 24
 * @see LORD
 */
export function rollDraft(
  front_diameter: any[][],
  front_rpm: any[][],
  back_diameter: any[][],
  back_rpm: any[][],
): any[][] {
  return lift(
    (front, frontRpm, back, backRpm) =>
      spinning.expectRollerDraft(
        "front_rpm",
        () => `${frontRpm} beside a back_rpm of ${backRpm}`,
        spinning.rollerDraft(front, frontRpm, back, backRpm),
      ),
    required({ front_diameter }, positive),
    required({ front_rpm }, positive),
    required({ back_diameter }, positive),
    required({ back_rpm }, positive),
  );
}

/**
 * Draft that makes one count of another, with doublings, waste and the take-up of twist.
 * @customfunction DRAFT
 * @param {any[][]} count_in Count of one strand fed, in system_in; more than 0.
 * @param {any[][]} system_in Its count system, such as "ktex", "Nm".
 * @param {any[][]} count_out Count delivered, in system_out; more than 0.
 * @param {any[][]} system_out Its count system.
 * @param {any[][]} [doublings] Strands fed together, a whole number; default 1.
 * @param {any[][]} [waste] Fraction of the mass fed that is lost, up to 0.4; default 0.
 * @param {any[][]} [contraction] Fraction of the length that twist takes up, up to 0.4; default 0, negative when it lengthens.
 * @returns {any[][]} Draft of the rollers, a ratio, in the shape of the arguments.
 * @remarks Draft = doublings × tex in × (1 − waste)/(tex out × (1 − contraction)). Without waste and contraction it is
 * the actual draft, with them the mechanical draft that the rollers must have.
 * @throws #VALUE! when a number is out of range, a percent is typed whole, or a word is unknown.
 * @example =YARN.DRAFT(2.25,"NeC",18,"NeC") → 8
 * @example =YARN.DRAFT(20,"ktex",{16;20},"ktex",8) → {10;8}
 * @see LINCOLN-1885, LORD
 */
export function draft(
  count_in: any[][],
  system_in: any[][],
  count_out: any[][],
  system_out: any[][],
  doublings?: any[][],
  waste?: any[][],
  contraction?: any[][],
): any[][] {
  return lift(
    (countIn, systemIn, countOut, systemOut, ends: number, lost: number, shorter: number) =>
      spinning.expectDraft(
        "count_out",
        () => `${countOut} ${systemOut.word} of ${countIn} ${systemIn.word}`,
        spinning.draftBetween(fed(countIn, systemIn), systemIn, countOut, systemOut, {
          doublings: ends,
          waste: lost,
          contraction: shorter,
        }),
      ),
    required({ count_in }, positive),
    required({ system_in }, countSystem),
    required({ count_out }, positive),
    required({ system_out }, countSystem),
    optional({ doublings }, wholeNumber, 1),
    optional({ waste }, machineWaste, 0),
    optional({ contraction }, takeUp, 0),
  );
}

/**
 * Count that a draft delivers, with doublings, waste and the take-up of twist.
 * @customfunction DRAWN
 * @param {any[][]} count_in Count of one strand fed, in system; more than 0.
 * @param {any[][]} system Its count system, such as "ktex", "Nm".
 * @param {any[][]} draft Draft of the rollers; more than 0.
 * @param {any[][]} [doublings] Strands fed together, a whole number; default 1.
 * @param {any[][]} [waste] Fraction of the mass fed that is lost, up to 0.4; default 0.
 * @param {any[][]} [contraction] Fraction of the length that twist takes up, up to 0.4; default 0, negative when it lengthens.
 * @param {any[][]} [system_out] Count system of the result; default the system of count_in.
 * @returns {any[][]} Count delivered, in system_out, in the shape of the arguments.
 * @remarks tex out = doublings × tex in × (1 − waste)/(draft × (1 − contraction)). The inverse of DRAFT.
 * @throws #VALUE! when a number is out of range, a percent is typed whole, or a word is unknown.
 * @example =YARN.DRAWN(4.2,"ktex",14000,120,0,0,"tex") → 36.000
 * @example =YARN.DRAWN(20,"ktex",{8;10},8) → {20;16}
 * @see EXAM, LORD, DRAPER-1896
 */
export function drawn(
  count_in: any[][],
  system: any[][],
  draft: any[][],
  doublings?: any[][],
  waste?: any[][],
  contraction?: any[][],
  system_out?: any[][],
): any[][] {
  return lift(
    (countIn, systemIn, ratio: number, ends: number, lost: number, shorter: number, systemOut) =>
      spinning.countDrawn(
        fed(countIn, systemIn),
        systemIn,
        spinning.expectDraft("draft", ratio, ratio),
        systemOut ?? systemIn,
        {
          doublings: ends,
          waste: lost,
          contraction: shorter,
        },
      ),
    required({ count_in }, positive),
    required({ system }, countSystem),
    required({ draft }, positive),
    optional({ doublings }, wholeNumber, 1),
    optional({ waste }, machineWaste, 0),
    optional({ contraction }, takeUp, 0),
    optional({ system_out }, countSystem, undefined),
  );
}

/**
 * Table of a whole drawing set: count in and out of every passage, doublings and draft so far.
 * @customfunction DRAFTPLAN
 * @param {any[][]} count_in Count of one strand fed to the first passage, in system; one cell.
 * @param {any[][]} system Its count system, such as "ktex"; one cell.
 * @param {any[][]} passages One row a passage; columns: doublings, draft, waste (fraction; may be left out); a first column of names may come along. With its heading row, columns in any order among others.
 * @param {any[][]} [system_out] Count system of the table; default the system of count_in.
 * @returns {any[][]} Header row, then one row per passage: passage (its name if given), count in, doublings, draft, count out, doublings so
 * far, draft so far.
 * @remarks Every passage delivers doublings × count in × (1 − waste)/draft by weight, as DRAWN does.
 * @throws #VALUE! when a number is out of range, a cell of passages is blank, or a word is unknown.
 * @example =YARN.DRAFTPLAN(20,"ktex",{"doublings","draft";8,8;8,10;6,9;1,12}) → {"passage","count in (ktex)","doublings","draft","count out (ktex)","doublings so far","draft so far";1,20,8,8,20,8,8;2,20,8,10,16,64,80;3,16,6,9,10.6667,384,720;4,10.6667,1,12,0.8889,384,8640}
 * @example =YARN.DRAFTPLAN(20,"ktex",{8,10}) → {"passage","count in (ktex)","doublings","draft","count out (ktex)","doublings so far","draft so far";1,20,8,10,16,8,10}
 * @see DEFINITION
 */
export function draftPlan(count_in: any[][], system: any[][], passages: any[][], system_out?: any[][]): any[][] {
  const from = one({ system }, countSystem);
  const to = oneOr({ system_out }, countSystem, from);
  const { rows, blanks, names } = tableInPlace<spinning.PlannedPassage>({ passages }, PASSAGE, PASSAGE_TRAITS);
  const unit = `(${to.word})`;
  const lines = spinning
    .drawingPlan(fed(one({ count_in }, positive), from), from, rows, to)
    .map((passage, index) => [
      names?.[index] ?? index + 1,
      passage.countIn,
      passage.doublings,
      passage.draft,
      passage.countOut,
      passage.doublingsSoFar,
      passage.draftSoFar,
    ]);
  return finiteRows([
    ["passage", `count in ${unit}`, "doublings", "draft", `count out ${unit}`, "doublings so far", "draft so far"],
    ...inPlaces(blanks, lines),
  ]);
}

const PASSAGE = { doublings: wholeNumber, draft: positive, waste: blankIs(machineWaste, 0) };
const PASSAGE_TRAITS = { named: true, synonyms: { name: ["passage", "machine", "frame", "gill", "head"] } };

/**
 * Change wheel, in teeth, for another count: the draft wheel from the same roving, or the twist wheel at the same twist
 * factor.
 * @customfunction CHANGEWHEEL
 * @param {any[][]} wheel Teeth of the change wheel that is in, a driver; a whole number, 8 to 400.
 * @param {any[][]} count_now Count that the frame spins with it, in system; more than 0.
 * @param {any[][]} count_wanted Count wanted, in system; more than 0.
 * @param {any[][]} system Count system, such as "Nm", "NeW", "tex".
 * @param {any[][]} [kind] "draft" (default): drives the back rollers; "twist": drives the front rollers. A word.
 * @returns {any[][]} Teeth wanted, not rounded, in the shape of the arguments.
 * @remarks Draft: wheel × tex wanted/tex now. Twist: wheel × √(tex wanted/tex now), which keeps the twist factor. On a
 * frame whose wheel is driven it is the inverse. Take the nearest whole wheel and work count and twist back from it.
 * @throws #VALUE! when a number is out of range or a word is unknown.
 * @example =YARN.CHANGEWHEEL(40,20,25,"Nm") → 32
 * @example =YARN.CHANGEWHEEL(40,16,25,"Nm","twist") → 32
 * @see DEFINITION
 */
export function changeWheel(
  wheel: any[][],
  count_now: any[][],
  count_wanted: any[][],
  system: any[][],
  kind?: any[][],
): any[][] {
  return lift(
    (teeth, now, wanted, words, which) => {
      const changed = which === "twist" ? spinning.twistChangeWheel : spinning.draftChangeWheel;
      const needed = changed(teeth, counting.expectNoDate("count_now", now, words), wanted, words);
      return spinning.expectTeeth("count_wanted", () => `${wanted} ${words.word} beside ${now}`, needed);
    },
    required({ wheel }, wheelTeeth),
    required({ count_now }, positive),
    required({ count_wanted }, positive),
    required({ system }, countSystem),
    optional({ kind }, wheelKind, "draft"),
  );
}

/**
 * Constant of a frame's gearing from the draft or twist that a change wheel gives; wheel wanted = constant / value wanted.
 * @customfunction WHEELCONSTANT
 * @param {any[][]} value Draft (a number), or twist in any unit, that the frame has with the wheel; more than 0.
 * @param {any[][]} wheel Teeth of the change wheel that is in; a whole number, 8 to 400.
 * @param {any[][]} kind A word: "draft" (drives the back rollers), "twist" (drives the front rollers), or "driven" for a wheel that is driven.
 * @returns {any[][]} Constant, in the unit of value, in the shape of the arguments.
 * @remarks Draft and twist: value × wheel, so that wheel = constant / value. Driven: value / wheel, so that wheel = value /
 * constant. The draft is that of the gearing: contraction and waste come on top. Check with the maker's own constant.
 * @throws #VALUE! when value is not above 0 or is no draft (0.5 to 500) or twist that a frame gives, the wheel has no whole number of teeth, or the word is unknown.
 * @example =YARN.WHEELCONSTANT(15,40,"draft") → 600
 * @example =YARN.WHEELCONSTANT(15,40,"draft")/{20;24} → {30;25}
 * @example =YARN.WHEELCONSTANT(15,40,"driven") → 0.375
 * @see DEFINITION
 */
export function wheelConstant(value: any[][], wheel: any[][], kind: any[][]): any[][] {
  return lift(
    (given, teeth, which) => {
      // Twist is in any unit, and in that of most turns it is below this.
      const expect = which === "draft" ? spinning.expectRollerDraft : spinning.expectTurnsAtMost;
      return spinning.wheelConstant(expect("value", given, given), teeth, which);
    },
    required({ value }, positive),
    required({ wheel }, wheelTeeth),
    required({ kind }, constantKind),
  );
}
