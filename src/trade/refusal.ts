/** Why a calculation cannot answer: a bad argument, something not found, an impossible number, a division by zero. */
export type RefusalKind = "argument" | "absent" | "impossible" | "division";

/** The only thing a calculation throws. The worksheet layer turns it into the matching cell error. */
export class Refusal extends Error {
  constructor(
    readonly kind: RefusalKind,
    message: string,
  ) {
    super(message);
  }
}

/** The longest message Excel shows comfortably in its error card. */
export const LONGEST_MESSAGE = 120;

/** One form for every message: the argument, what came, what is allowed. */
export function saying(argument: string, came: string, allowed: string): string {
  const message = `${argument} is ${came}; ${allowed}`;
  return message.length <= LONGEST_MESSAGE ? message : `${message.slice(0, LONGEST_MESSAGE - 1)}…`;
}

/** How many of something, as a person says it: 1 row, 2 rows. */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}

export function refuse(argument: string, came: string, allowed: string): never {
  throw new Refusal("argument", saying(argument, came, allowed));
}

export function absent(argument: string, came: string, allowed: string): never {
  throw new Refusal("absent", saying(argument, came, allowed));
}

export function impossible(argument: string, came: string, allowed: string): never {
  throw new Refusal("impossible", saying(argument, came, allowed));
}

export function dividedByZero(argument: string, came: string, allowed: string): never {
  throw new Refusal("division", saying(argument, came, allowed));
}
