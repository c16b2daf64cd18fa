import type { Worksheet } from "@cj-tech-master/excelts";
import { installChartSupport } from "@cj-tech-master/excelts/chart";
import { absolute, place, type Place } from "./addresses";
import { FORMATS, withZero, type Format } from "./formats";
import { letterOn, PALETTE, SERIES } from "./palette";

installChartSupport();

/** A chart that reads on a grey print too: fills from dark to light with a dark edge, and dashes for lines. */
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
  readonly series: readonly ChartSeries[];
  /** Writes each value beside its bar or point. */
  readonly written?: boolean;
  /** What is nothing is not written. */
  readonly withoutZeros?: boolean;
  /** The axis starts at zero, except where values lie on both sides of it. */
  readonly bothSides?: boolean;
  /** Which bar or point, from 0, carries the names of the series; the first, of lines the last. */
  readonly namedAt?: number;
}

export interface ChartSeries {
  readonly name: string;
  readonly values: string;
  /** Which bar or point carries this series' name, where it is not the plan's; a series that is nothing yet has none. */
  readonly namedAt?: number | "nowhere";
}

/** As many series are named beside what they draw; there is no legend. */
const MOST_SERIES = 5;
const DASHES = ["solid", "dash", "sysDot", "dashDot"] as const;
const TICKS = { majorTickMark: "none", minorTickMark: "none" } as const;
const SMALL = 900;

function letters(colour: string) {
  return { size: SMALL, color: { srgb: colour } };
}

/** The cells of a range, a little short of their far edge, which a print area would cut off. */
function within(range: string) {
  const [from, to] = range.split(":").map((corner) => place(corner)) as [Place, Place];
  const short = 0.1;
  return { tl: { col: from.column - 1, row: from.row - 1 }, br: { col: to.column - short, row: to.row - short } };
}

/** The numbers of a chart's points, from 0: as many as its labels. */
function lastPoint(labels: string): number {
  const [from, to = from] = labels.split(":").map((corner) => place(corner)) as [Place, Place?];
  return Math.max(to.row - from.row, to.column - from.column);
}

/** Values beside the bars, and beside one of them the series' name. */
function dataLabels(plan: ChartPlan, index: number) {
  const lines = plan.kind === "lines";
  const named = plan.series.length > 1;
  if (!plan.written && !named) return {};
  const fill = SERIES[index % SERIES.length] as string;
  const inside = plan.stacked === true && plan.bothSides !== true;
  const shown = {
    position: inside ? "ctr" : lines ? "t" : "outEnd",
    numFmt: plan.withoutZeros ? `${withZero(plan.format)};-${withZero(plan.format)};` : FORMATS[plan.format],
    numFmtLinked: false,
    txPr: letters(plan.stacked ? letterOn(fill) : PALETTE.ink),
    showVal: plan.written === true,
    showSerName: false,
    showCatName: false,
    showLegendKey: false,
    showPercent: false,
    showBubbleSize: false,
  };
  const { position, ...others } = shown;
  const own = plan.series[index]?.namedAt;
  const at =
    own ?? plan.namedAt ?? (lines ? Math.floor((lastPoint(plan.labels) * (index + 1)) / (plan.series.length + 1)) : 0);
  // A bar that lies on another's side of zero has no place outside its end.
  const placed = plan.stacked && !inside ? others : { position, ...others };
  return {
    dataLabels: {
      ...placed,
      ...(named && at !== "nowhere" ? { entries: [{ index: at, ...placed, showSerName: true }] } : {}),
    },
  };
}

export function drawChart(sheet: Worksheet, range: string, plan: ChartPlan): void {
  if (plan.series.length > MOST_SERIES) throw new Error(`${plan.title}: ${plan.series.length} series`);
  const from = plan.from ?? sheet.name;
  const lines = plan.kind === "lines";
  const series = plan.series.map(({ name, values }, index) => ({
    name,
    categories: absolute(from, plan.labels),
    values: absolute(from, values),
    line: lines ? SERIES[(index * 2) % SERIES.length] : PALETTE.ink,
    lineWidth: lines ? 2 : 0.5,
    ...(lines
      ? {
          smooth: false,
          lineDash: DASHES[index % DASHES.length],
          marker: {
            symbol: index % 2 === 0 ? "circle" : "square",
            size: 5,
            fill: SERIES[(index * 2) % SERIES.length],
            line: PALETTE.ink,
          },
        }
      : { fill: SERIES[index % SERIES.length] }),
    ...dataLabels(plan, index),
  }));
  const shared = {
    title: {
      paragraphs: [
        { runs: [{ text: plan.title, properties: { size: 1200, bold: true, color: { srgb: PALETTE.accent } } }] },
      ],
    },
    showLegend: false,
    series,
    varyColors: false,
    categoryAxis: {
      ...TICKS,
      title: plan.categories,
      lineColor: PALETTE.ink,
      txPr: letters(PALETTE.ink),
      // Below the lines or left of the bars, also of those on the other side of zero.
      tickLblPos: "low",
      ...(plan.kind === "bars" ? { orientation: "maxMin" } : {}),
    },
    valueAxis: {
      ...TICKS,
      title: plan.values,
      txPr: letters(PALETTE.ink),
      lineColor: PALETTE.grid,
      ...(plan.bothSides ? {} : { min: 0 }),
      numFmt: withZero(plan.format),
      numFmtLinked: false,
      majorGridlines: true,
      majorGridlinesStyle: { border: PALETTE.grid, borderWidth: 0.5 },
      ...(plan.kind === "bars" ? { crosses: "max" } : {}),
    },
  } as const;
  if (lines)
    sheet.addLineChart({ ...shared, grouping: "standard", showMarker: true, smooth: false } as never, within(range));
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
