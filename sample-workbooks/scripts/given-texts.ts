/** Texts that a function of ours gave, to be compared: LibreOffice Calc takes them all for one another until they are joined. */
export const texts = (given: string): string => `${given}&""`;

/** For each name the figure that stands beside it in what a function gave; 0 where there is none. */
export const figuresBeside = (names: string, given: string, figures: string): string =>
  `MMULT(--(${names}=TRANSPOSE(${texts(given)})),IF(ISNUMBER(${figures}),${figures},0))`;

/**
 * The columns of a Table whose headings are these names, as figures, in the order of the names; what is no figure is 0.
 * A column more is found by its heading.
 */
export const columnsUnder = (table: string, names: string): string =>
  `MMULT(IF(ISNUMBER(${table}[#Data]),${table}[#Data],0),--(TRANSPOSE(${table}[#Headers])=TRANSPOSE(${names})))`;
