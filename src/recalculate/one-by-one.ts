/** The engine's own form of a value, as far as these functions look into it. */
export type Element = { readonly kind: number; readonly value?: unknown; readonly code?: string };
type Elements = Element & { readonly rows: readonly (readonly Element[])[] };

const BLANK = 0;
const NUMBER = 1;
const TEXT = 2;
const BOOLEAN = 3;
const ERROR = 4;

/**
 * Functions of one value that a worksheet applies to every cell of an array, where the engine looks at the first only:
 * SUMPRODUCT(--(ABS(A1:A9)>1)) would count one row.
 */
export const ONE_BY_ONE: Readonly<Record<string, (element: Element) => Element>> = {
  ABS: numeric(Math.abs),
  SIGN: numeric(Math.sign),
  INT: numeric(Math.floor),
  SQRT: numeric(Math.sqrt),
  EXP: numeric(Math.exp),
  LN: numeric((value) => (value > 0 ? Math.log(value) : NaN)),
  LOG10: numeric((value) => (value > 0 ? Math.log10(value) : NaN)),
  ISNUMBER: truth(({ kind }) => kind === NUMBER),
  ISTEXT: truth(({ kind }) => kind === TEXT),
  ISBLANK: truth(({ kind }) => kind === BLANK),
  ISLOGICAL: truth(({ kind }) => kind === BOOLEAN),
  ISERROR: truth(({ kind }) => kind === ERROR),
  ISNA: truth(({ code }) => code === "#N/A"),
};

/** The function for a value or for every value of an array; where an array came from stays known. */
export function appliedOneByOne(work: (element: Element) => Element): (received: unknown[]) => unknown {
  return ([argument]) => {
    const value = argument as Element | Elements;
    return "rows" in value ? { ...value, rows: value.rows.map((row) => row.map(work)) } : work(value);
  };
}

function truth(holds: (element: Element) => boolean): (element: Element) => Element {
  return (element) => ({ kind: BOOLEAN, value: holds(element) });
}

/** A result that is no number is #NUM!, as of a root of a negative number. */
function numeric(work: (value: number) => number): (element: Element) => Element {
  return (element) => {
    if (element.kind === ERROR) return element;
    const value = numberIn(element);
    if (value === undefined) return { kind: ERROR, code: "#VALUE!" };
    const result = work(value);
    return Number.isFinite(result) ? { kind: NUMBER, value: result } : { kind: ERROR, code: "#NUM!" };
  };
}

function numberIn({ kind, value }: Element): number | undefined {
  if (kind === BLANK) return 0;
  if (kind === NUMBER) return value as number;
  if (kind === BOOLEAN) return value === true ? 1 : 0;
  const text = String(value).trim();
  return text === "" || Number.isNaN(Number(text)) ? undefined : Number(text);
}
