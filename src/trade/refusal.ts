/** Why a calculation cannot answer: a bad argument, something not found, an impossible number, a division by zero. */
export type RefusalKind = "argument" | "absent" | "impossible" | "division";

/**
 * Where something stands in what was given: an entry of a list or table, counted from 0, and a field of it. Only the
 * worksheet layer knows which row or column that is.
 */
export class Place {
  constructor(
    readonly list: string,
    readonly index: number,
    readonly field?: string | number,
  ) {}

  toString(): string {
    const field = typeof this.field === "number" ? `[${this.field}]` : this.field === undefined ? "" : `.${this.field}`;
    return `${this.list}[${this.index}]${field}`;
  }
}

export function at(list: string, index: number, field?: string | number): Place {
  return new Place(list, index, field);
}

/** What is refused: an argument by its name, or an entry of it. */
export type Subject = string | Place;

/** A text with places in it, as `said` makes it. */
export type Words = string | readonly (string | Place)[];

/** said`as in ${at("rates", 3)}` keeps the place, for the worksheet layer to put into words. */
export function said(texts: TemplateStringsArray, ...values: (string | number | Place)[]): Words {
  const words: (string | Place)[] = [texts[0] as string];
  values.forEach((value, index) => {
    words.push(value instanceof Place ? value : String(value), texts[index + 1] as string);
  });
  return words;
}

/**
 * The only thing a calculation throws. The worksheet layer turns it into the matching cell error. An Error to whoever
 * asks, but without the trace of calls that errors take down: in a long column of wrong cells that takes most of the time.
 */
export class Refusal implements Error {
  readonly name = "Refusal";

  constructor(
    readonly kind: RefusalKind,
    readonly subject: Subject,
    readonly came: Words,
    readonly allowed: Words,
  ) {}

  get message(): string {
    return saying(String(this.subject), plain(this.came), plain(this.allowed));
  }
}
Object.setPrototypeOf(Refusal.prototype, Error.prototype);

function plain(words: Words): string {
  return typeof words === "string" ? words : words.map(String).join("");
}

/** The longest message Excel shows comfortably in its error card. */
export const LONGEST_MESSAGE = 120;

/** One form for every message: the argument, what came, what is allowed. */
export function saying(argument: string, came: string, allowed: string): string {
  const message = `${argument} is ${came}; ${allowed}`;
  return shortened(message, LONGEST_MESSAGE);
}

/** A text of so many characters at the most, as messages quote it. */
export function shortened(text: string, most = 24): string {
  return text.length > most ? `${text.slice(0, most - 1)}…` : text;
}

/** How many of something, as a person says it: 1 row, 2 rows. */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}

export function refuse(subject: Subject, came: Words, allowed: Words): never {
  throw new Refusal("argument", subject, came, allowed);
}

export function absent(subject: Subject, came: Words, allowed: Words): never {
  throw new Refusal("absent", subject, came, allowed);
}

export function impossible(subject: Subject, came: Words, allowed: Words): never {
  throw new Refusal("impossible", subject, came, allowed);
}

/** No figure leaves as NaN or Infinity. */
export function beyondNumbers(): never {
  impossible("the result", "beyond what a cell can hold", "check the size of the arguments");
}

export function dividedByZero(subject: Subject, came: Words, allowed: Words): never {
  throw new Refusal("division", subject, came, allowed);
}
