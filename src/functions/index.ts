import { guarded } from "../sheet/guard";
import * as blend from "./blend";
import * as condition from "./condition";
import * as control from "./control";
import * as cost from "./cost";
import * as count from "./count";
import * as drafting from "./drafting";
import * as evenness from "./evenness";
import * as fineness from "./fineness";
import * as landed from "./landed";
import * as library from "./library";
import * as production from "./production";
import * as quality from "./quality";
import * as route from "./route";
import * as schedule from "./schedule";
import * as shade from "./shade";
import * as skein from "./skein";
import * as twist from "./twist";
import * as wool from "./wool";

const FAMILIES: readonly object[] = [
  ...[count, twist, drafting, evenness, production],
  ...[wool, condition, fineness, skein, quality],
  ...[route, schedule, blend, shade],
  ...[cost, landed, control, library],
];

type Declared = Parameters<typeof guarded>[0];

// A function's id is the name it is exported under, in capitals; the build checks that the docblock says the same.
for (const family of FAMILIES as readonly Record<string, Declared>[]) {
  for (const name of Object.keys(family)) {
    CustomFunctions.associate(name.toUpperCase(), guarded(family[name] as Declared));
  }
}
