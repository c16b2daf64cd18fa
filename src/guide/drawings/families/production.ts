import { bars } from "../bars";
import { figure, type Drawing } from "../svg";
import type { Work } from "../../work";

const SPINDLES = [100, 200, 400, 800];

export function productionDrawing({ number }: Work): Drawing {
  const rate = number(`=YARN.SPINRATE(8000,400,"tpm",31.25,"tex",0.9)`);
  const rows = SPINDLES.map((spindles) => ({ spindles, hours: number(`=YARN.MACHINEHOURS(540,${spindles},${rate})`) }));
  return {
    title: "Hours that 540 kg keep spindles busy",
    says: `At ${figure(rate)} g a spindle and hour, 540 kg take ${rows.map(({ spindles, hours }) => `${figure(hours)} hours on ${spindles} spindles`).join(", ")}.`,
    ...bars(
      rows.map(({ spindles, hours }) => ({
        name: `${spindles} spindles`,
        from: 0,
        to: hours,
        said: `${figure(hours)} h`,
      })),
    ),
  };
}
