import { guarded } from "../sheet/guard";
import * as count from "./count";
import * as library from "./library";

const FAMILIES: readonly object[] = [
  count,
  //
  library,
];

type Declared = Parameters<typeof guarded>[0];

// A function's id is the name it is exported under, in capitals; the build checks that the docblock says the same.
for (const family of FAMILIES as readonly Record<string, Declared>[]) {
  for (const name of Object.keys(family)) {
    CustomFunctions.associate(name.toUpperCase(), guarded(family[name] as Declared));
  }
}
