import type { Entry, SampleBook } from "./kit";
import { FONTS } from "./styles";

/** One line of what came out: a formula that gives a text, and the sheet that says more. */
export type Outcome = readonly [text: string, sheet: string];

/** The facts that every About sheet states. */
export interface About {
  readonly title: string;
  readonly purpose: string;
  /** What came out, in up to five lines. */
  readonly outcomes?: readonly Outcome[];
  readonly scenario: string;
  readonly date: string;
  readonly currency: string;
  readonly massBasis: string;
  /** What the main result is known to: a formula. */
  readonly known?: string;
  readonly how: readonly string[];
}

export const ABOUT = "About";
const WIDTHS = [21, 68, 19] as const;
const MOST_OUTCOMES = 5;
const CAUTION =
  "Figures of an invented scenario, not advice. Labels, customs and tax are decided by law; dyeing and machinery by the makers' instructions and trained people.";

/** The first sheet: what the book is for, what came out, where it stands; then what is good to know. */
export function writeAbout(
  book: SampleBook,
  about: About,
  sheets: readonly { name: string; sentence: string }[],
  hasCharts: boolean,
): void {
  const { outcomes = [], how } = about;
  if (outcomes.length > MOST_OUTCOMES) throw new Error(`${about.title}: ${outcomes.length} lines of what came out`);
  const sheet = book.workbook.getWorksheet(ABOUT) as ReturnType<SampleBook["sheet"]>;
  book.setWidths(sheet, WIDTHS);
  book.run(sheet, "A1", about.title, FONTS.bookTitle);
  let row = 3;
  const line = (label: string, text: Entry): void => {
    book.put(sheet, `A${row}`, label).font = FONTS.bold;
    sheet.getCell(`A${row}`).alignment = { vertical: "top" };
    book.text(sheet, `B${row}`, text);
    row++;
  };
  const lines = (label: string, texts: readonly Entry[]): void =>
    texts.forEach((text, index) => line(index === 0 ? label : "", text));

  line("Purpose", about.purpose);
  for (const [index, [text, target]] of outcomes.entries()) {
    book.link(sheet, `C${row}`, target);
    line(index === 0 ? "What came out" : "", text);
  }
  if (about.known !== undefined) line("Known to", about.known);
  book.link(sheet, `C${row}`, "Checks");
  line("Checks", "=Checks!$B$4");
  line(
    "Is the library loaded?",
    '=IF(ISERROR(YARN.VERSION()),"no: saved figures stand until a cell is recalculated; install the add-in","yes, version "&YARN.VERSION())',
  );
  row++;
  book.heading(sheet, `A${row++}`, "Sheets");
  for (const { name, sentence } of sheets) {
    book.link(sheet, `A${row}`, name);
    book.text(sheet, `B${row++}`, sentence);
  }
  row++;
  lines("How to use it", how);
  book.asInput(book.put(sheet, `C${row}`, "typed in"));
  line("Look", "Cells with a box and a tint are typed in; everything else is calculated.");
  if (hasCharts)
    line("Charts", "A chart keeps the rows that it was drawn with: pull its range longer when a Table has grown.");
  line("Scenario", about.scenario);
  line("Date", about.date);
  line("Currency", about.currency);
  line("Mass basis", about.massBasis);
  line("Caution", CAUTION);
}
