/** No workbook may take more than this; a hostile one would take all. */
export interface Limits {
  readonly megabytes: number;
  readonly seconds: number;
}

export const LIMITS: Limits = { megabytes: 2048, seconds: 120 };
