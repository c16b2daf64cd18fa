import { openBook, type Book } from "./book";
import { builtFunctions } from "./bundle";
import { formulasOf } from "./calculation";
import { Complaint } from "./command-line";
import { Model, type Shown } from "./model";
import { listed, placeOfOne, placesOf, type Place } from "./places";
import { fixedInput, hasRanges, inputsOf, rangesInTable, type Input, type Ranges } from "./ranges";
import { bytesOf } from "./recalculation";
import { sought, type Sought, type Tried } from "./seek";

/** What is asked of a workbook. */
export interface Question {
  readonly file: string;
  /** How messages call it: as the person typed it. */
  readonly called: string;
  /** The name of a Table, or what a file of text holds; the workbook's own Table where neither is given. */
  readonly ranges?: string | Ranges;
  /** The outcomes, as typed; those that the ranges mark where none are given. */
  readonly of?: string;
  /** Outcomes beside those. */
  readonly also: readonly string[];
}

/** What is to be varied and what is watched, found in the workbook and sure. */
export interface Setting {
  readonly file: string;
  readonly called: string;
  readonly inputs: readonly Input[];
  readonly outcomes: readonly Place[];
  /** What each outcome shows with the inputs as they are in the file. */
  readonly now: readonly Shown[];
  /** For each outcome the inputs, by their places in the list, that it depends on. */
  readonly reached: readonly (readonly number[])[];
  readonly worked: number;
  readonly unsaved: number;
}

export type Answer<Result> = { readonly result: Result } | { readonly error: string };

function answered<Result>(called: string, work: () => Result): Answer<Result> {
  try {
    return { result: work() };
  } catch (fault) {
    const message = (fault as Error).message;
    if (fault instanceof Complaint) return { error: message.startsWith(called) ? message : `${called}: ${message}` };
    return { error: `${called} could not be worked out: ${message}` };
  }
}

/** Finds inputs and outcomes and refuses an outcome that rests on what is not sure here. */
export function settleVariation(question: Question): Answer<Setting> {
  const { file, called, ranges, of, also } = question;
  return answered(called, () => {
    const book = openBook(bytesOf(file, called), called);
    const found = typeof ranges === "object" ? ranges : rangesInTable(book, ranges);
    const inputs = inputsOf(book, found);
    const named = [...(of === undefined ? found.outcomes : listed(of)), ...also];
    if (named.length === 0) {
      throw new Complaint(`no outcome is named; give --of Sheet!A1, or a row of shape outcome in ${found.called}`);
    }
    const outcomes = distinct(named.flatMap((one) => placesOf(book, one, "outcome")));
    const model = sureModelOf(book, inputs, outcomes);
    const setting = { file, called, inputs, outcomes };
    kept = { key: keyOf(setting), model };
    return {
      ...setting,
      now: model.at(inputs.map(({ now }) => now)),
      reached: model.reached,
      worked: model.worked,
      unsaved: model.unsaved,
    };
  });
}

/** An outcome that is to show a wanted value, and the input that is to bring it there. */
export interface Wanted {
  readonly file: string;
  readonly called: string;
  readonly outcome: string;
  readonly value: number;
  readonly by: string;
  /** Where to look; the range of the input in the Table Ranges, or around its value, where nothing is given. */
  readonly between?: readonly [number, number];
  readonly ranges?: string | Ranges;
}

export interface Seeking {
  readonly called: string;
  readonly outcome: string;
  readonly value: number;
  readonly by: string;
  /** The input and the outcome as the file stands. */
  readonly now: Tried;
  readonly between: readonly [number, number];
  readonly sought: Sought;
}

/** Looks for the value of one input with which an outcome shows what is wanted, all other cells as they are. */
export function seekInWorkbook({ file, called, outcome, value, by, between, ranges }: Wanted): Answer<Seeking> {
  return answered(called, () => {
    const book = openBook(bytesOf(file, called), called);
    const input = fixedInput(book, by);
    const place = placeOfOne(book, outcome, "outcome");
    const model = sureModelOf(book, [input], [place]);
    const outcomeAt = (one: number) => model.at([one])[0] as Shown;
    let found: { between: readonly [number, number]; sought: Sought } | undefined;
    for (const ends of between ? [between] : placesToLook(book, input, ranges)) {
      found = { between: ends, sought: sought(outcomeAt, ...ends, value) };
      if (found.sought.kind !== "none") break;
    }
    const { now } = input;
    return {
      called,
      outcome: place.called,
      value,
      by: input.place.called,
      now: { input: now, outcome: outcomeAt(now) },
      ...(found as { between: readonly [number, number]; sought: Sought }),
    };
  });
}

/** The range of the input where it has one; otherwise around its value, and further around. */
function placesToLook(book: Book, { place, now }: Input, ranges: string | Ranges | undefined): [number, number][] {
  const ranged =
    typeof ranges === "object" ? ranges : hasRanges(book, ranges) ? rangesInTable(book, ranges) : undefined;
  const own = ranged && inputsOf(book, ranged).find((one) => samePlace(one.place, place));
  if (own && own.high > own.low) return [[own.low, own.high]];
  if (now === 0) throw new Complaint(`${place.called} is 0; say where to look, as --between 0,10`);
  return AROUND.map(([less, more]) => (now > 0 ? [less * now, more * now] : [more * now, less * now]));
}

const AROUND = [
  [1 / 2, 2],
  [1 / 10, 10],
] as const;

/** What the outcomes show at each of these points, a value for every input. */
export function workVariation({
  setting,
  points,
}: {
  setting: Pick<Setting, "file" | "called" | "inputs" | "outcomes">;
  points: readonly (readonly number[])[];
}): Answer<Shown[][]> {
  const { file, called, inputs, outcomes } = setting;
  return answered(called, () => {
    const key = keyOf(setting);
    if (kept?.key !== key) {
      kept = { key, model: modelOf(openBook(bytesOf(file, called), called), inputs, outcomes) };
    }
    const { model } = kept;
    return points.map((values) => model.at(values));
  });
}

/** A process works on one workbook for many jobs. */
let kept: { readonly key: string; readonly model: Model } | undefined;

function keyOf({ file, inputs, outcomes }: Pick<Setting, "file" | "called" | "inputs" | "outcomes">): string {
  return JSON.stringify([file, inputs, outcomes]);
}

function samePlace(one: Place, other: Place): boolean {
  return one.sheet === other.sheet && one.row === other.row && one.column === other.column;
}

/** A model whose outcomes depend on the inputs and rest on nothing that is in doubt here. */
function sureModelOf(book: Book, inputs: readonly Input[], outcomes: readonly Place[]): Model {
  for (const outcome of outcomes) {
    if (inputs.some(({ place }) => samePlace(place, outcome))) {
      throw new Complaint(`outcome ${outcome.called} is an input`);
    }
  }
  const model = modelOf(book, inputs, outcomes);
  refuseDoubts(model);
  outcomes.forEach(({ called }, index) => {
    if (model.reached[index]?.length === 0) throw new Complaint(`outcome ${called} depends on none of the inputs`);
  });
  return model;
}

function modelOf(book: Book, inputs: readonly Input[], outcomes: readonly Place[]): Model {
  return new Model(
    book,
    formulasOf(book),
    builtFunctions(),
    inputs.map(({ place }) => place),
    outcomes,
  );
}

const MOST_DOUBTS_TOLD = 5;

function refuseDoubts({ doubts }: Model): void {
  const [first] = doubts;
  if (first === undefined) return;
  const told = doubts.slice(0, MOST_DOUBTS_TOLD).map(({ outcome, cell, why }) => `${outcome} rests on ${cell}: ${why}`);
  const more = doubts.length > told.length ? [`and ${doubts.length - told.length} more`] : [];
  throw new Complaint(["refused, because it cannot be recalculated for sure here:", ...told, ...more].join("\n  "));
}

function distinct(places: readonly Place[]): Place[] {
  return places.filter((place, index) => places.findIndex((other) => samePlace(other, place)) === index);
}
