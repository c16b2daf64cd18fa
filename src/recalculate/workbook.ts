import { installChartSupport } from "@cj-tech-master/excelts/chart";

/** The writer of the sample workbooks, from the same package as the engine; see stored-form.ts for how they are saved. */
export { Workbook } from "@cj-tech-master/excelts";

installChartSupport();
