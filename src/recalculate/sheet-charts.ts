import type { Sheet } from "./report-book";

/** Where a chart stands, in rows and columns of the sheet. */
export interface ChartArea {
  readonly row: number;
  readonly rows: number;
  readonly columns: number;
}

/** Bars and points that a print in black and white tells apart. */
const DARK = { fill: "4D4D4D", line: "000000", lineWidth: 0.75 };
const OPEN = { fill: "FFFFFF", line: "000000", lineWidth: 0.75 };
const TICKS = { majorTickMark: "outside", minorTickMark: "none" } as const;
const GRID = { majorGridlines: true, majorGridlinesStyle: { border: "D9D9D9", borderWidth: 0.5 } };
const PLAIN = { showLegend: false, varyColors: false };

/** How often the outcome fell where. The references are those of the starts of the steps and of the counts. */
export function histogramChart(sheet: Sheet, area: ChartArea, title: string, starts: string, counts: string): void {
  sheet.addColumnChart(
    {
      ...PLAIN,
      title: titled("How often the outcome fell where"),
      gapWidth: 0,
      series: [{ name: "Runs", categories: starts, values: counts, ...DARK }],
      categoryAxis: { ...axis(`${title}, from`), tickLblPos: "low" },
      valueAxis: { ...axis("Runs"), ...GRID },
    } as never,
    anchor(area),
  );
}

/** To both sides of the mean: white where the low of an input leads, dark where its high leads. */
export function swingsChart(
  sheet: Sheet,
  area: ChartArea,
  title: string,
  inputs: string,
  lows: string,
  highs: string,
): void {
  sheet.addBarChart(
    {
      ...PLAIN,
      title: titled(title),
      grouping: "clustered",
      overlap: 100,
      gapWidth: 50,
      showLegend: true,
      legendPosition: "b",
      series: [
        { name: "input at its low", categories: inputs, values: lows, ...OPEN },
        { name: "input at its high", categories: inputs, values: highs, ...DARK },
      ],
      categoryAxis: { ...TICKS, orientation: "maxMin", tickLblPos: "low" },
      valueAxis: { ...axis("difference"), ...GRID, crosses: "max" },
    } as never,
    anchor(area),
  );
}

/** Every run a dot. */
export function dotsChart(
  sheet: Sheet,
  area: ChartArea,
  { across, up }: { readonly across: string; readonly up: string },
  xs: string,
  ys: string,
): void {
  sheet.addScatterChart(
    {
      ...PLAIN,
      title: titled(`${up} over ${across}`),
      scatterStyle: "lineMarker",
      series: [
        { name: up, xValues: xs, values: ys, marker: { symbol: "circle", size: 3, fill: "4D4D4D", border: "000000" } },
      ],
      categoryAxis: axis(across),
      valueAxis: { ...axis(up), ...GRID },
    } as never,
    anchor(area),
  );
  const charts = sheet.getCharts();
  const chart = charts[charts.length - 1];
  const series = chart?.getSeries(0);
  // The writer joins the points by a line unless it is told not to.
  if (series) chart?.mutate(() => void (series.spPr = { line: { noFill: true } }));
}

function axis(title: string) {
  return { ...TICKS, title, numFmt: "General", numFmtLinked: false };
}

function titled(words: string) {
  return { paragraphs: [{ runs: [{ text: words, properties: { size: 1200, bold: true } }] }] };
}

/** A little off the edges, which a print would cut off. */
function anchor({ row, rows, columns }: ChartArea) {
  return { tl: { col: 0.02, row: row - 0.9 }, br: { col: columns - 0.1, row: row - 1 + rows } };
}
