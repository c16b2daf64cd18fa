import { answersTo, type Searched } from "./matching";

document.addEventListener("DOMContentLoaded", () => {
  const form = document.querySelector<HTMLFormElement>("form.search");
  const box = form?.querySelector("input");
  const results = document.querySelector<HTMLElement>("ul.results");
  const said = document.querySelector<HTMLElement>(".found");
  const stages = document.querySelector<HTMLElement>(".stages");
  if (!form || !box || !results || !said || !stages) return;
  form.hidden = false;

  const items = [...document.querySelectorAll<HTMLElement>("li[data-id]")];
  const entries = items.map(({ dataset, textContent }): Searched => ({
    id: (dataset.id ?? "").toLowerCase(),
    nearest: dataset.nearest ?? "",
    trade: dataset.trade ?? "",
    description: textContent ?? "",
    details: dataset.details ?? "",
  }));

  const search = () => {
    const asked = box.value.trim();
    stages.hidden = asked !== "";
    results.hidden = asked === "";
    said.textContent = "";
    results.replaceChildren();
    if (asked === "") return;
    const answers = answersTo(asked, entries);
    results.append(...answers.map((place) => (items[place] as HTMLElement).cloneNode(true)));
    said.textContent = answers.length === 0 ? "Nothing found." : `${answers.length} found, the nearest first.`;
  };
  box.addEventListener("input", search);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    results.querySelector<HTMLElement>("a")?.focus();
  });
  // A browser that comes back to the page keeps what was typed.
  search();
});
