import { escaped, type Page } from "./html";

export interface Caution {
  readonly anchor: string;
  readonly title: string;
  /** Families of functions it concerns. */
  readonly families: readonly string[];
  readonly paragraphs: readonly string[];
}

const CAUTIONS: readonly Caution[] = [
  {
    anchor: "dyes",
    title: "Dyes and chemicals",
    families: ["route", "shade"],
    paragraphs: [
      "Read the maker's safety data sheet of every dye, acid, salt and mordant before it is weighed. Powders are breathed in: weigh them in an enclosure or with the mask that the sheet names, with gloves and eye protection, and away from food.",
      "Acid goes into water, never water into acid. Some mordants and some metal-complex dyes are poisonous, and what may go into a drain is decided by the local water authority. A figure of this library is a quantity on paper; it is not a recipe that anyone has approved.",
    ],
  },
  {
    anchor: "pressure",
    title: "Pressure vessels, steam and hot liquor",
    families: ["route"],
    paragraphs: [
      "Pressure dyeing machines, autoclaves, boilers and steam lines are inspected and run under local codes by people trained for them. Never open a vessel that has not been vented, and never exceed the maker's limits of pressure, temperature and load.",
      "Liquor ratios and bath volumes worked out here know nothing of a machine's least and greatest filling. Take those from its plate.",
    ],
  },
  {
    anchor: "machinery",
    title: "Machinery",
    families: ["twist", "drafting", "production", "skein"],
    paragraphs: [
      "Cards, combs, gill boxes, spinning and twisting frames and reels have nips, hooks and fast spindles. Guards stay on; power is off and locked before a hand, a wheel or a traveller goes in, as local rules demand.",
      "Spindle speeds, roll speeds, change wheels and drafts given here are arithmetic. The highest speed and the permitted settings are the machine maker's.",
    ],
  },
  {
    anchor: "labels",
    title: "Labels and packs",
    families: ["condition", "skein"],
    paragraphs: [
      "What a label must say, which names of fibres may be used, which allowances count and how far a pack may fall short is decided by the law of the place where the yarn is sold, and it changes. The tables here name the text and the edition they come from; check the one in force.",
      "The check of packs is an aid to a person who knows the rules. It is no legal advice and no substitute for the inspector's own test.",
    ],
  },
  {
    anchor: "customs",
    title: "Customs, duties and fees",
    families: ["landed"],
    paragraphs: [
      "Classification, valuation, origin, rates, fees and their floors and caps are set by law and change at short notice. Take them from the authority on the day, and leave filings to a licensed broker.",
      "Nothing is looked up by these functions: a rate is always an argument, so an old rate in a cell stays an old rate.",
    ],
  },
  {
    anchor: "tax",
    title: "Accounts and tax",
    families: ["cost", "landed", "control"],
    paragraphs: [
      "Which costs may be held in stock, how a joint cost may be shared, and which exchange rate must be used is for the accounting standard and the tax law that bind you, as your accountant reads them.",
    ],
  },
  {
    anchor: "shades",
    title: "Shades",
    families: ["shade", "blend"],
    paragraphs: [
      "A predicted shade is a start for a hand-carded pad. Approve the pad by eye, in the light the yarn is sold in, before anything is dyed or blended in bulk. Screens, cameras and printed swatches are no measurement.",
    ],
  },
  {
    anchor: "memory",
    title: "Figures from memory",
    families: [],
    paragraphs: [
      'A few figures had no readable source when they were entered. Wherever they are used the description says "from memory, verify before use", and the function SOURCES and the page of each function list them. Verify them before money or a machine depends on them.',
    ],
  },
];

export function cautionsFor(family: string): readonly Caution[] {
  return CAUTIONS.filter(({ families }) => families.includes(family));
}

export function cautionNamed(anchor: string): Caution {
  const found = CAUTIONS.find((caution) => caution.anchor === anchor);
  if (found === undefined) throw new Error(`there is no caution ${anchor}`);
  return found;
}

/** The line at the foot of a page that names the cautions of a family. */
export function cautionLinks(family: string): string {
  const links = cautionsFor(family).map(
    ({ anchor, title }) => `<a href="cautions.html#${anchor}">${escaped(title)}</a>`,
  );
  return links.length === 0 ? "" : `<p class="caution">Cautions: ${links.join(", ")}.</p>`;
}

export function cautionsPage(): Page {
  const sections = CAUTIONS.map(
    ({ anchor, title, paragraphs }) =>
      `<section aria-labelledby="${anchor}"><h2 id="${anchor}">${escaped(title)}</h2>${paragraphs.map((text) => `<p>${escaped(text)}</p>`).join("")}</section>`,
  );
  return {
    file: "cautions.html",
    title: "Cautions · Yarn worksheet functions",
    description: "What no worksheet can decide: safety, law, and the eye.",
    body: `<h1>Cautions</h1>
<p class="lead">A worksheet is right about arithmetic only. For everything below, local codes, the law, the maker's instructions and licensed or trained people decide, not this library.</p>
${sections.join("\n")}`,
  };
}
