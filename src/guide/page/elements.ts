/** The element of the page that fits a selector; the page has one. */
export function at<Found extends HTMLElement>(selector: string): Found {
  return document.querySelector(selector) as Found;
}

export function paragraph(text: string): HTMLElement {
  const one = document.createElement("p");
  one.textContent = text;
  return one;
}

/** Hands the person a file. */
export function save(content: Uint8Array<ArrayBuffer> | string, name: string, type: string): void {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement("a");
  Object.assign(link, { href: address, download: name });
  link.click();
  // The browser takes it up after this turn.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** The name of a file made from another one, with an ending of its own or the same. */
export function namedAfter(name: string, what: string, ending?: string): string {
  const [, stem = name, own = ""] = /^(.*?)(\.[^.]*)?$/.exec(name) ?? [];
  return `${stem}-${what}${ending ?? own}`;
}
