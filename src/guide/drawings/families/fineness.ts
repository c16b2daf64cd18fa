import { bars } from "../bars";
import { figure, percent, type Drawing } from "../svg";
import type { Work } from "../../work";

const STAPLES = [70, 80, 90, 100];

export function finenessDrawing({ number }: Work): Drawing {
  const rows = STAPLES.map((staple) => ({
    staple,
    hauteur: number(`=YARN.TOPFORECAST(${staple},38,21,1.5%,50%,"hauteur")`),
    romaine: number(`=YARN.TOPFORECAST(${staple},38,21,1.5%,50%,"romaine")`),
  }));
  return {
    title: "Longer staple: longer top, less noil",
    says: `Forecast for wool of 21 micron and 38 N/ktex: ${rows.map(({ staple, hauteur, romaine }) => `staple of ${staple} mm gives a hauteur of ${figure(hauteur)} mm and ${percent(romaine)} noil`).join("; ")}.`,
    ...bars(
      rows.map(({ staple, hauteur, romaine }) => ({
        name: `staple ${staple} mm`,
        from: 0,
        to: hauteur,
        said: `top ${figure(hauteur)} mm, noil ${percent(romaine)}`,
      })),
    ),
  };
}
