import type { CountSystem } from "../../tables/count-systems";
import { texOf } from "./counts";
import { tokensOf, unreadable, type Token, type TokenKind } from "./designation-words";
import { foldedYarn, type FoldOrder, type FoldMark } from "./fold-notation";
import { canBePlies, canBeResultant, PLIES_ALLOWED, RESULTANT_ALLOWED } from "./plausible-fold";
import { refuse, shortened } from "../refusal";

/*
 * The designation of a yarn: how it is written, in the order of ISO 1139 (from memory) or of the trade.
 *
 *   designation    = single-to-fold | fold-to-single | trade ;
 *   single-to-fold = single { "x" plies [ twist ] } [ ";" "R" density ] ;    34 tex S 600 x 2 Z 400; R 69,3 tex
 *                  | density "/" plies { "/" plies } ;                       34 tex/2: of the single, as there is no R
 *   fold-to-single = "R" density [ twist ] { "/" plies [ twist ] } [ ";" single ] ;
 *                                                                        R 69,3 tex Z 400 / 2 S 600; 34 tex
 *                  | "R" number "/" plies { "/" plies } system [ twist ] [ ";" single ] ;
 *                                                                        R 72/2 tex
 *   trade          = ( system numbers | numbers system ) [ twist ] ;         Nm 30/2, 2/30 NeW, 28/2 Nm S 350
 *   numbers        = number mark number [ mark number ] ;                    30/2/3: thirty, two-fold, three cabled
 *   mark           = "/" | "x" ;
 *   single         = density [ filaments ] [ twist ] ;
 *   density        = number system | system number ;                         30 tex, Nm 28
 *   filaments      = "f" whole number ;                                      read over: no part asks for it
 *   twist          = ( "S" | "Z" ) [ turns a metre ] | "t0" ;                t0: without twist
 *   plies          = whole number from 1 to 12 ;
 *   system         = a word for a count system ;
 *
 * Which of the numbers of a trade designation is the ply is settled in fold-notation.ts; what a number and a word
 * look like, in designation-words.ts.
 */

/** "t0" says that there is no twist. */
export type TwistDirection = "S" | "Z" | "t0";

export interface Twist {
  readonly direction: TwistDirection;
  /** Turns a metre, if they are stated. */
  readonly turns: number | undefined;
}

export interface Designation {
  /** The finished yarn, in tex; without "R" in the text it is plies × single, no take-up. */
  readonly resultant: number;
  /** One single yarn, in tex; in fold-to-single without the single it is resultant / plies, no take-up. */
  readonly single: number;
  /** Single yarns in the finished yarn: 6 for a three-fold cable of two-fold yarns. */
  readonly plies: number;
  /** Twist of the single, of the folding, of the cabling; those there are, as far as they are stated. */
  readonly twists: readonly (Twist | undefined)[];
}

/** What a word means as a count system; refuses a word that means none, or two. */
export type SystemOf = (word: string) => CountSystem;

/** A yarn can be folded and then cabled. */
const MOST_FOLDINGS = 2;

/** Reads a designation. `order` says which number of a trade designation is the ply, where the text does not show it. */
export function readDesignation(text: string, systemOf: SystemOf, order?: FoldOrder): Designation {
  const reader = new Reader(text, systemOf);
  const designation = reader.next("R") ? foldToSingle(reader) : (trade(reader, order) ?? singleToFold(reader));
  reader.end();
  return designation;
}

interface Folding {
  readonly plies: number;
  readonly twist: Twist | undefined;
}

function singleToFold(reader: Reader): Designation {
  const systemFirst = reader.next("word");
  const single = reader.density();
  reader.filaments();
  const twist = reader.twist();
  // "Nm 2 x 28 Z 400": nothing shows which of the two is the count.
  if (systemFirst && twist === undefined && reader.next("x"))
    reader.fail("write the system behind the count: 34 tex x 2");
  if (twist === undefined && reader.next("/")) return strokedSingle(reader, single);
  const foldings = reader.foldings("x");
  const plies = pliesOf(foldings);
  let resultant = single * plies;
  if (reader.took(";")) {
    reader.must("R", "write the resultant as R 69.3 tex");
    resultant = reader.density();
    reader.expectResultant(resultant, single, plies);
  }
  return { resultant, single, plies, twists: [twist, ...foldings.map((folding) => folding.twist)] };
}

/** 72 tex/2: without R the density is the single's. A twist there could be that of either, so it is refused. */
function strokedSingle(reader: Reader, single: number): Designation {
  const foldings = reader.foldings("/");
  if (foldings.some((folding) => folding.twist !== undefined)) {
    reader.fail("write 34 tex S 600 x 2 Z 400, or R before a resultant");
  }
  const plies = pliesOf(foldings);
  return { resultant: single * plies, single, plies, twists: [undefined, ...foldings.map(() => undefined)] };
}

/** Written from the outside in: the last twist belongs to the single, and the one behind R to the last folding. */
function foldToSingle(reader: Reader): Designation {
  reader.took("R");
  const stroked = reader.next("number") && reader.next("/", 1);
  const count = stroked ? reader.number() : undefined;
  let foldings = stroked ? reader.strokes() : [];
  const resultant = count === undefined ? reader.density() : reader.texOf(count, reader.system());
  reader.filaments();
  const outermost = reader.twist();
  if (!stroked) foldings = reader.foldings("/");
  const plies = pliesOf(foldings);
  let single = resultant / plies;
  const twists = [outermost, ...foldings.map((folding) => folding.twist)].reverse();
  if (reader.took(";")) {
    single = reader.density();
    reader.filaments();
    const own = reader.twist();
    if (own !== undefined && twists[0] !== undefined) reader.fail("the twist of the single stands there twice");
    twists[0] = own ?? twists[0];
    reader.expectResultant(resultant, single, plies);
  }
  return { resultant, single, plies, twists };
}

/** A designation of the trade, if the text is one: two or three numbers with one mark between them. */
function trade(reader: Reader, order: FoldOrder | undefined): Designation | undefined {
  const start = reader.next("word") ? 1 : 0;
  const mark: FoldMark = reader.next("/", start + 1) ? "/" : "x";
  if (!reader.next(mark, start + 1)) return undefined;
  if (mark === "x" && !(reader.next("number", start + 2) && reader.folds(start + 2))) return undefined;
  const before = start === 1 ? reader.system() : undefined;
  const numbers = [reader.number()];
  while (numbers.length <= MOST_FOLDINGS && reader.took(mark)) numbers.push(reader.number());
  const system = before ?? reader.system();
  const { count, plies, isResultant } = foldedYarn(reader.text, numbers, mark, system, order);
  const tex = texOf(count, system);
  // A twist behind the whole is that of the finished yarn.
  const twists = [...numbers.slice(1).map(() => undefined), reader.twist()];
  return isResultant
    ? { resultant: tex, single: tex / plies, plies, twists }
    : { resultant: tex * plies, single: tex, plies, twists };
}

function pliesOf(foldings: readonly Folding[]): number {
  return foldings.reduce((product, { plies }) => product * plies, 1);
}

/** Walks over the tokens of one text. */
class Reader {
  private readonly tokens: readonly Token[];
  private place = 0;

  constructor(
    readonly text: string,
    private readonly systemOf: SystemOf,
  ) {
    this.tokens = tokensOf(text);
  }

  next(kind: TokenKind, ahead = 0): boolean {
    return this.tokens[this.place + ahead]?.kind === kind;
  }

  took(kind: TokenKind): boolean {
    if (!this.next(kind)) return false;
    this.place++;
    return true;
  }

  must(kind: TokenKind, advice: string): void {
    if (!this.took(kind)) this.fail(advice);
  }

  end(): void {
    if (this.place < this.tokens.length) this.fail();
  }

  /** Refuses the text: what stands at this place does not belong there. */
  fail(advice?: string): never {
    return unreadable(this.text, this.tokens[this.place], advice);
  }

  number(): number {
    const token = this.tokens[this.place];
    if (token?.kind !== "number") return this.fail();
    this.place++;
    return token.value;
  }

  system(): CountSystem {
    const token = this.tokens[this.place];
    if (token === undefined) return this.fail("add the count system, as in 2/30 Nm");
    if (token.kind !== "word") return this.fail();
    this.place++;
    return this.systemOf(token.text);
  }

  /** A count with its system, in tex. */
  density(): number {
    const before = this.next("word") ? this.system() : undefined;
    const count = this.number();
    return this.texOf(count, before ?? this.system());
  }

  texOf(count: number, system: CountSystem): number {
    if (count === 0) refuse("text", "a yarn of count 0", "a count must be above 0");
    return texOf(count, system);
  }

  expectResultant(resultant: number, single: number, plies: number): void {
    if (canBeResultant(resultant, single, plies)) return;
    const rounded = (tex: number) => Number(tex.toPrecision(4));
    const came = `"${shortened(this.text)}", R ${rounded(resultant)} tex for ${plies} × ${rounded(single)} tex`;
    refuse("text", came, RESULTANT_ALLOWED);
  }

  filaments(): void {
    if (!this.took("f")) return;
    const filaments = this.number();
    if (!Number.isInteger(filaments) || filaments < 1) {
      refuse("text", `a yarn of ${filaments} filaments`, "filaments must be a whole number, 1 or more");
    }
  }

  twist(): Twist | undefined {
    if (this.took("t0")) return { direction: "t0", turns: 0 };
    const direction = this.took("S") ? "S" : this.took("Z") ? "Z" : undefined;
    if (direction === undefined) return undefined;
    return { direction, turns: this.next("number") ? this.number() : undefined };
  }

  foldings(mark: FoldMark): Folding[] {
    const foldings: Folding[] = [];
    while (foldings.length < MOST_FOLDINGS && this.took(mark)) {
      foldings.push({ plies: this.plies(), twist: this.twist() });
    }
    return foldings;
  }

  /** Foldings written with the count, before the system: no twist can stand between them. */
  strokes(): Folding[] {
    const foldings: Folding[] = [];
    while (foldings.length < MOST_FOLDINGS && this.took("/")) foldings.push({ plies: this.plies(), twist: undefined });
    return foldings;
  }

  /** Do the numbers from there on stand without a twist between them, up to the end or a system? */
  folds(ahead: number): boolean {
    let place = ahead;
    while (this.next("number", place) && this.next("x", place + 1)) place += 2;
    return (
      this.next("number", place) && (this.place + place + 1 === this.tokens.length || this.next("word", place + 1))
    );
  }

  private plies(): number {
    const plies = this.number();
    if (!canBePlies(plies)) refuse("text", `a yarn of ${plies} plies`, PLIES_ALLOWED);
    return plies;
  }
}
