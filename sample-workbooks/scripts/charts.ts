import type { Worksheet } from "@cj-tech-master/excelts";
import { installChartSupport } from "@cj-tech-master/excelts/chart";
import { absolute, place, type Place } from "./addresses";
import { FORMATS, type Format } from "./formats";

installChartSupport();

/** A chart that reads on a black-and-white print: greys from dark to white with black edges, and dashes for lines. */
export interface ChartPlan {
  readonly kind: "columns" | "bars" | "lines";
  readonly stacked?: boolean;
  readonly title: string;
  /** What the value axis measures, with its unit. */
  readonly values: string;
  readonly categories: string;
  readonly format: Format;
  /** The sheet whose cells are drawn, where it is not the chart's own. */
  readonly from?: string;
  readonly labels: string;
  readonly series: readonly { readonly name: string; readonly values: string }[];
  /** Writes each value beside its bar or point. */
  readonly written?: boolean;
}

const GREYS = ["404040", "BFBFBF", "FFFFFF", "808080", "D9D9D9", "1A1A1A", "A6A6A6", "EDEDED", "666666"];
const DASHES = ["solid", "dash", "sysDot", "dashDot"] as const;
const TICKS = { majorTickMark: "outside", minorTickMark: "none" } as const;
const BLACK = "000000";

/** The cells of a range, a little short of their far edge, which a print area would cut off. */
function within(range: string) {
  const [from, to] = range.split(":").map((corner) => place(corner)) as [Place, Place];
  const short = 0.1;
  return { tl: { col: from.column - 1, row: from.row - 1 }, br: { col: to.column - short, row: to.row - short } };
}

export function drawChart(sheet: Worksheet, range: string, plan: ChartPlan): void {
  const from = plan.from ?? sheet.name;
  const lines = plan.kind === "lines";
  const series = plan.series.map(({ name, values }, index) => ({
    name,
    categories: absolute(from, plan.labels),
    values: absolute(from, values),
    line: BLACK,
    lineWidth: lines ? 1.75 : 0.75,
    ...(lines
      ? {
          lineDash: DASHES[index % DASHES.length],
          marker: { symbol: index % 2 === 0 ? "circle" : "square", size: 6, fill: GREYS[index], line: BLACK },
        }
      : { fill: GREYS[index % GREYS.length] }),
    ...(plan.written
      ? {
          dataLabels: {
            showVal: true,
            showCatName: false,
            showSerName: false,
            showLegendKey: false,
            showPercent: false,
            showBubbleSize: false,
            numFmt: FORMATS[plan.format],
            numFmtLinked: false,
          },
        }
      : {}),
  }));
  const shared = {
    title: { paragraphs: [{ runs: [{ text: plan.title, properties: { size: 1200, bold: true } }] }] },
    showLegend: plan.series.length > 1,
    legendPosition: "b",
    series,
    varyColors: false,
    categoryAxis: {
      ...TICKS,
      title: plan.categories,
      ...(plan.kind === "bars" ? { orientation: "maxMin", tickLblPos: "low" } : {}),
    },
    valueAxis: {
      ...TICKS,
      title: plan.values,
      numFmt: FORMATS[plan.format],
      numFmtLinked: false,
      majorGridlines: true,
      majorGridlinesStyle: { border: "D9D9D9", borderWidth: 0.5 },
      ...(plan.kind === "bars" ? { crosses: "max" } : {}),
    },
  } as const;
  if (lines) sheet.addLineChart({ ...shared, grouping: "standard", showMarker: true } as never, within(range));
  else
    sheet.addChart(
      {
        ...shared,
        type: "bar",
        barDir: plan.kind === "bars" ? "bar" : "col",
        grouping: plan.stacked ? "stacked" : "clustered",
        overlap: plan.stacked ? 100 : 0,
        gapWidth: 60,
      } as never,
      within(range),
    );
}
