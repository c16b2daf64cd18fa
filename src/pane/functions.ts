import { CellError, type Implementation } from "../guide/page/values";

/** The functions of the bundle, by id, as soon as its script has run in this page. */
export const functions = new Map<string, Implementation>();

interface Runtime {
  Error?: unknown;
  associate?: (id: string, implementation: Implementation) => void;
}

const page = globalThis as { CustomFunctions?: Runtime };
const excels = page.CustomFunctions ?? {};
const associateInExcel = excels.associate;
/** Where Excel has the functions of this very page, they must reach Excel too. */
const isShared = document.documentElement.dataset.runtime === "shared";

excels.Error ??= CellError;
excels.associate = (id, implementation) => {
  functions.set(id, implementation);
  if (isShared) associateInExcel?.call(excels, id, implementation);
};
page.CustomFunctions = excels;

/** The version of the bundle in this page. */
export function loadedVersion(): string {
  const rows = functions.get("VERSION")?.() as string[][] | undefined;
  return rows?.[0]?.[0] ?? "unknown";
}
