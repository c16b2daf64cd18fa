/** The part of Excel's custom-functions runtime that this library uses (CustomFunctionsRuntime 1.1). */
declare namespace CustomFunctions {
  type ErrorCode = "#VALUE!" | "#N/A" | "#NUM!" | "#DIV/0!" | "#REF!" | "#NAME?" | "#NULL!";

  class Error {
    constructor(code: ErrorCode, message?: string);
    readonly code: ErrorCode;
    readonly message?: string;
  }

  // eslint-disable-next-line @typescript-eslint/no-explicit-any -- the runtime hands over whatever the cells hold
  function associate(id: string, implementation: (...cells: any[]) => unknown): void;
}
