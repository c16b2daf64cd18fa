type Child = Node | string | undefined;

/** An element with its class or attributes and what is in it. Texts are texts: nothing is ever read as HTML. */
export function make<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, string>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...children.filter((child): child is Node | string => child !== undefined));
  return element;
}

/** A button that does one thing, and cannot be pressed again until it is done. */
export function button(name: string, pressed: () => void | Promise<void>, className = ""): HTMLButtonElement {
  const made = make("button", { type: "button", ...(className === "" ? {} : { class: className }) }, name);
  made.addEventListener("click", () => {
    const done = pressed();
    if (done === undefined) return;
    made.disabled = true;
    void done.finally(() => (made.disabled = false));
  });
  return made;
}

/** A link to a page of the guide; Excel opens it in the browser. */
export function guideLink(page: string, name: string): HTMLAnchorElement {
  return make("a", { href: `guide/${page}`, target: "_blank", rel: "noopener" }, name);
}

export function counted(number: number, thing: string): string {
  return `${number} ${thing}${number === 1 ? "" : "s"}`;
}
