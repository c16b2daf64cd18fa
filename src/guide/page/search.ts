import { answersTo, corrected, type Searched } from "./matching";

/** By an entry's name: words that ask for it before others, further words of the trade, and what else is said of it. */
export type SearchWords = Readonly<Record<string, readonly string[]>>;

document.addEventListener("DOMContentLoaded", () => {
  const form = document.querySelector<HTMLFormElement>("form.search");
  const box = form?.querySelector("input");
  const results = document.querySelector<HTMLElement>("ul.results");
  const said = document.querySelector<HTMLElement>(".found");
  const stages = document.querySelector<HTMLElement>(".stages");
  if (!form || !box || !results || !said || !stages) return;
  form.hidden = false;

  const items = [...document.querySelectorAll<HTMLElement>("li[data-id]")];
  const { searchWords = {} } = globalThis as { searchWords?: SearchWords };
  const entries = items.map(({ dataset, textContent }): Searched => {
    const id = dataset.id ?? "";
    const [nearest = "", trade = "", details = ""] = searchWords[id] ?? [];
    return { id: id.toLowerCase(), nearest, trade, description: textContent ?? "", details };
  });

  const search = () => {
    const asked = box.value.trim();
    const answers = asked === "" ? [] : answersTo(asked, entries);
    // Where nothing is found, the whole list is the nearest page there is.
    stages.hidden = answers.length > 0;
    results.hidden = answers.length === 0;
    said.textContent = "";
    results.replaceChildren(...answers.map((place) => (items[place] as HTMLElement).cloneNode(true)));
    if (asked === "") return;
    const meant = corrected(asked, entries);
    const found = `${answers.length} found${meant === asked ? "" : ` for “${meant}”`}, the nearest first.`;
    said.textContent = answers.length === 0 ? "Nothing found; everything there is stands below." : found;
  };
  box.addEventListener("input", search);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    results.querySelector<HTMLElement>("a")?.focus();
  });
  // A browser that comes back to the page keeps what was typed.
  search();
});
