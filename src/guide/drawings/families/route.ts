import { flow, routeStages } from "../flow";
import { figure, type Drawing } from "../svg";
import type { Work } from "../../work";

export function routeDrawing({ table }: Work): Drawing {
  const stages = '{"scour",0.42,0.16,0;"card and comb",0.03,0.18,0.09;"dye the top",0.01,0.18,0;"spin",0.05,0.1825,0}';
  const route = routeStages(table(`=YARN.ROUTE(1000,${stages},"made")`));
  const yarn = route[route.length - 1]?.out ?? 0;
  return {
    title: "1,000 kg of greasy wool through a route",
    says: `Kilograms. ${route.map(({ name, into, said, out }) => `${name}: ${figure(into)} in, ${said}, ${figure(out)} out`).join(". ")}. Yarn: ${figure(yarn)}.`,
    ...flow(route),
  };
}
