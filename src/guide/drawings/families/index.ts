import type { Drawing } from "../svg";
import type { Work } from "../../work";
import { blendDrawing } from "./blend";
import { conditionDrawing } from "./condition";
import { controlDrawing } from "./control";
import { costDrawing } from "./cost";
import { countDrawing } from "./count";
import { draftingDrawing } from "./drafting";
import { evennessDrawing } from "./evenness";
import { finenessDrawing } from "./fineness";
import { landedDrawing } from "./landed";
import { libraryDrawing } from "./library";
import { productionDrawing } from "./production";
import { qualityDrawing } from "./quality";
import { routeDrawing } from "./route";
import { scheduleDrawing } from "./schedule";
import { shadeDrawing } from "./shade";
import { skeinDrawing } from "./skein";
import { twistDrawing } from "./twist";
import { woolDrawing } from "./wool";

/** The drawing with which each family of functions opens. */
export const FAMILY_DRAWINGS: Readonly<Record<string, (work: Work) => Drawing>> = {
  count: countDrawing,
  twist: twistDrawing,
  drafting: draftingDrawing,
  evenness: evennessDrawing,
  production: productionDrawing,
  quality: qualityDrawing,
  wool: woolDrawing,
  condition: conditionDrawing,
  fineness: finenessDrawing,
  skein: skeinDrawing,
  route: routeDrawing,
  schedule: scheduleDrawing,
  blend: blendDrawing,
  shade: shadeDrawing,
  cost: costDrawing,
  landed: landedDrawing,
  control: controlDrawing,
  library: libraryDrawing,
};
