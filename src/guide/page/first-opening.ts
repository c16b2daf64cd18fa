/** The filled form as text: what was seen at each step, for the project. */
document.addEventListener("DOMContentLoaded", () => {
  const form = document.querySelector<HTMLFormElement>("form.opening");
  const result = form?.querySelector<HTMLElement>("section");
  const report = form?.querySelector("textarea");
  const copy = form?.querySelector<HTMLButtonElement>("section button");
  const said = form?.querySelector<HTMLElement>("[role=status]");
  if (!form || !result || !report || !copy || !said) return;
  result.hidden = false;

  const write = () => {
    const host = form.querySelector<HTMLInputElement>("#host")?.value.trim() ?? "";
    const lines = [...form.querySelectorAll<HTMLElement>("li[data-title]")].map((step, place) => {
      const seen = step.querySelector<HTMLInputElement>("input:checked")?.value ?? "not tried";
      const note = step.querySelector<HTMLInputElement>("input:not([type=radio])")?.value.trim() ?? "";
      return `${place + 1}. ${step.dataset.title ?? ""}: ${seen}${note === "" ? "" : `. ${note}`}`;
    });
    report.value = [`First opening in Excel: ${host === "" ? "host not named" : host}`, ...lines].join("\n");
    said.textContent = "";
  };
  form.addEventListener("input", write);
  form.addEventListener("submit", (event) => event.preventDefault());
  copy.addEventListener("click", () => {
    report.select();
    navigator.clipboard
      .writeText(report.value)
      .then(() => (said.textContent = "Copied."))
      .catch(() => (said.textContent = "Selected: copy it with Ctrl+C."));
  });
  // A browser that comes back to the page keeps what was filled in.
  write();
});
