import { AMBIGUOUS_FORMS, FIBRES, FIBRE_FORMS } from "../tables/fibres";
import { REGAIN_SCHEDULES, type RegainSchedule } from "../tables/regains";
import { YIELD_KINDS, type YieldKind } from "../tables/yield-kinds";
import { word, type Kind } from "./kinds";
import { vocabulary } from "./words";

/** A kind of clean yield. The list cannot be complete: other yields are read off the certificate. */
export const yieldKind: Kind<YieldKind> = word({
  ...vocabulary(
    "yield kind",
    YIELD_KINDS.map((kind) => [kind.word, kind, ...kind.aliases] as const),
  ),
  absence: () => "known: scoured 16/17, clean fibre, customs clean, top and noil; else the certificate's figure",
});

function notInTables(nearest: string | undefined): string {
  return `not in the regain tables; ${nearest === undefined ? "" : `the nearest is ${nearest}; `}REGAINS lists them`;
}

/** A fibre, by its trade or label name. */
export const fibre: Kind<string> = word({
  ...vocabulary(
    "fibre",
    FIBRES.map(([name, ...aliases]) => [name, name, ...aliases] as const),
  ),
  absence: notInTables,
});

/** The form of a fibre. */
export const fibreForm: Kind<string> = word({
  ...vocabulary(
    "form of fibre",
    FIBRE_FORMS.map(([name, ...aliases]) => [name, name, ...aliases] as const),
    AMBIGUOUS_FORMS,
  ),
  absence: notInTables,
});

/** A table of standard regains. */
export const regainSchedule: Kind<RegainSchedule> = word(
  vocabulary(
    "regain schedule",
    REGAIN_SCHEDULES.map(({ word: name, aliases }) => [name, name, ...aliases] as const),
  ),
);
