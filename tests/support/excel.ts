/**
 * Excel's documented objects, as far as the pane uses them, over a workbook in memory: nothing can be read before it is
 * loaded and the context synchronised, what is asked for happens in its order at the next synchronisation, and what
 * Excel refuses it refuses there, with Excel's codes. office-addin-mock has no ranges that answer to addresses, so the
 * pane could not be tried on a sheet with it. Runs in Node and, in the place of Office.js, in a browser.
 */

export type Content = string | number | boolean;

interface Sheet {
  readonly name: string;
  /** By "row,column" from 0: what was entered, and what is shown. */
  readonly cells: Map<string, { formula: Content; value: Content }>;
  readonly spills: { row: number; column: number; rows: number; columns: number }[];
  isProtected: boolean;
}

interface Table {
  readonly name: string;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly headings: readonly string[];
  readonly rows: number;
}

export interface Book {
  readonly sheets: Record<string, Record<string, Content | readonly [formula: string, shown: Content]>>;
  readonly spills?: Record<string, string>;
  readonly names?: Record<string, string>;
  readonly tables?: Record<string, { readonly headings: string; readonly rows: number }>;
  readonly properties?: Record<string, string>;
  readonly isProtected?: readonly string[];
  readonly selected: string;
  /** The newest ExcelApi that the host knows, 1.16 where nothing is said; "1.4" …; "" for another host. */
  readonly api?: string;
  /** What formulas give when they are entered; nothing listed gives #NAME?. */
  readonly gives?: Record<string, Content>;
}

class Refused extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}

interface Area {
  readonly sheet: Sheet;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

type Find<Target> = () => Target | null;

const ERRORS = /^#(NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A|SPILL!|CALC!|BUSY!)$/;

/** The workbook, and the two globals that stand for it. */
export function excelWith(book: Book) {
  const sheets = new Map<string, Sheet>();
  for (const [name, content] of Object.entries(book.sheets)) {
    const cells: Sheet["cells"] = new Map();
    for (const [address, entry] of Object.entries(content)) {
      const { row, column } = numbersOf(address);
      const [formula, value] = Array.isArray(entry)
        ? (entry as [Content, Content])
        : [entry as Content, entry as Content];
      cells.set(`${row},${column}`, { formula, value });
    }
    sheets.set(name, { name, cells, spills: [], isProtected: book.isProtected?.includes(name) ?? false });
  }
  for (const [anchor, area] of Object.entries(book.spills ?? {})) {
    const { sheet, row, column } = areaFrom(anchor);
    const { rows, columns } = areaFrom(area);
    sheet.spills.push({ row, column, rows, columns });
  }
  const tables = Object.entries(book.tables ?? {}).map(([name, { headings, rows }]): Table => {
    const { sheet, row, column, columns } = areaFrom(headings);
    const texts = Array.from({ length: columns }, (_, at) => String(shownAt(sheet, row, column + at)));
    return { name, sheet: sheet.name, row, column, headings: texts, rows };
  });
  const properties = new Map(Object.entries(book.properties ?? {}));
  const handlers: (() => unknown)[] = [];
  const state = { selected: book.selected, writes: [] as string[], exchanges: 0 };

  function areaFrom(address: string, from?: Sheet): Area {
    const mark = address.lastIndexOf("!");
    const name = mark < 0 ? undefined : address.slice(0, mark).replace(/^'|'$/g, "").replace(/''/g, "'");
    const sheet = name === undefined ? (from ?? [...sheets.values()][0]) : sheets.get(name);
    if (sheet === undefined) throw new Refused("ItemNotFound", "The requested resource doesn't exist.");
    const cells = address.slice(mark + 1).replace(/\$/g, "");
    const whole = /^([A-Z]+):([A-Z]+)$/.exec(cells);
    if (whole) {
      const [left, right] = [columnOf(whole[1] as string), columnOf(whole[2] as string)];
      return { sheet, row: 0, column: left, rows: 1_048_576, columns: right - left + 1 };
    }
    if (!/^[A-Z]{1,3}\d+(:[A-Z]{1,3}\d+)?$/.test(cells))
      throw new Refused("InvalidArgument", "The argument is invalid or missing or has an incorrect format.");
    const [first, last = first] = cells.split(":").map(numbersOf) as [Numbers, Numbers | undefined];
    return {
      sheet,
      row: first.row,
      column: first.column,
      rows: last.row - first.row + 1,
      columns: last.column - first.column + 1,
    };
  }

  function context() {
    const queue: (() => void)[] = [];

    /** An object of the host: loaded properties, methods that give other objects, and what can be set. */
    function object<Target>(
      find: Find<Target>,
      reads: Record<string, (target: Target) => unknown>,
      rest: Record<string, unknown> = {},
      writes: Record<string, (target: Target, value: never) => void> = {},
    ): object {
      const loaded = new Map<string, unknown>();
      const known: Record<string, unknown> = {
        ...rest,
        load(names: string) {
          queue.push(() => {
            const target = find();
            loaded.set("isNullObject", target === null);
            if (target === null) return;
            for (const name of names.split(",").map((one) => one.trim())) {
              const read = reads[name];
              if (read === undefined) throw new Refused("PropertyNotFound", `${name} is no property`);
              loaded.set(name.replace(/\/.*$/, ""), read(target));
            }
          });
        },
      };
      return new Proxy(known, {
        get(_, name: string) {
          if (name in known) return known[name];
          if (loaded.has(name)) return loaded.get(name);
          if (name === "then") return undefined;
          throw new Refused(
            "PropertyNotLoaded",
            `The property '${name}' is not available. Before reading its value, call the load method and context.sync().`,
          );
        },
        set(_, name: string, value: never) {
          const write = writes[name];
          if (write === undefined) return false;
          queue.push(() => write(needed(find)(), value));
          return true;
        },
      });
    }

    function range(find: Find<Area>): object {
      const all = needed(find);
      const part = (change: (area: Area) => Area | null) => range(() => change(all()));
      return object<Area>(
        find,
        {
          address: (area) => addressOf(area),
          rowIndex: ({ row }) => row,
          columnIndex: ({ column }) => column,
          rowCount: ({ rows }) => rows,
          columnCount: ({ columns }) => columns,
          formulas: (area) => grid(area, (sheet, row, column) => sheet.cells.get(`${row},${column}`)?.formula ?? ""),
          values: (area) => grid(area, shownAt),
          text: (area) => grid(area, (...place) => String(shownAt(...place))),
          valueTypes: (area) => grid(area, (...place) => typeOf(shownAt(...place))),
        },
        {
          get worksheet() {
            return worksheet(() => all().sheet);
          },
          getCell: (row: number, column: number) =>
            part((area) => ({ ...area, row: area.row + row, column: area.column + column, rows: 1, columns: 1 })),
          getBoundingRect: (other: Located) => part((area) => around(area, other.located())),
          getIntersection: (other: Located) =>
            part((area) => both(area, other.located()) ?? refuse("ItemNotFound", "There is no common cell.")),
          getIntersectionOrNullObject: (other: Located) => part((area) => both(area, other.located())),
          getEntireRow: () => part((area) => ({ ...area, column: 0, columns: 16_384 })),
          getSpillingToRange: () =>
            part((area) => spillOf(area, true) ?? refuse("ItemNotFound", "The cell does not spill.")),
          getSpillParentOrNullObject: () =>
            part((area) => {
              const spill = spillOf(area, false);
              return spill && { ...spill, rows: 1, columns: 1 };
            }),
          getTables: () => ({
            getFirst: () =>
              table(
                () =>
                  tables.find((one) => one.sheet === all().sheet.name && both(all(), wholeOf(one)) !== null) ?? null,
              ),
          }),
          located: all,
        },
        {
          formulas: (area, value: Content[][]) => write(area, value),
          values: (area, value: Content[][]) => write(area, value),
        },
      );
    }

    function write(area: Area, entered: Content[][]): void {
      if (area.sheet.isProtected)
        throw new Refused("AccessDenied", "The cell or chart you're trying to change is on a protected sheet.");
      entered.forEach((line, down) =>
        line.forEach((formula, along) => {
          const [row, column] = [area.row + down, area.column + along];
          const isFormula = typeof formula === "string" && formula.startsWith("=");
          const value = isFormula ? (book.gives?.[formula] ?? "#NAME?") : formula;
          area.sheet.cells.set(`${row},${column}`, { formula, value });
          state.writes.push(`${area.sheet.name}!${nameOf(row, column)} ${formula}`);
        }),
      );
    }

    function worksheet(find: Find<Sheet>): object {
      const sheet = needed(find);
      const used = (): Area | null => usedArea(sheet());
      return object<Sheet>(
        find,
        { name: ({ name }) => name },
        {
          getRange: (address: string) => range(() => areaFrom(address, sheet())),
          getCell: (row: number, column: number) => range(() => ({ sheet: sheet(), row, column, rows: 1, columns: 1 })),
          getUsedRange: () => range(() => used() ?? { sheet: sheet(), row: 0, column: 0, rows: 1, columns: 1 }),
          getUsedRangeOrNullObject: () => range(used),
          names: { getItemOrNullObject: (name: string) => named(() => nameIn(`${sheet().name}!${name}`)) },
        },
      );
    }

    function nameIn(name: string): string | null {
      return (
        Object.entries(book.names ?? {}).find(([known]) => known.toLowerCase() === name.toLowerCase())?.[1] ?? null
      );
    }

    function named(find: Find<string>): object {
      return object<string>(find, { name: (to) => to }, { getRange: () => range(() => areaFrom(needed(find)())) });
    }

    function table(find: Find<Table>): object {
      const own = needed(find);
      const columnsOf = (from: number, to: number) => ({
        getRange: () => range(() => partOf(own(), from, to, 0, own().rows + 1)),
        getHeaderRowRange: () => range(() => partOf(own(), from, to, 0, 1)),
        getDataBodyRange: () => range(() => partOf(own(), from, to, 1, own().rows)),
        getTotalRowRange: () => range(() => refuse("ItemNotFound", "There is no totals row.")),
      });
      const column = (name: string): number => {
        const place = own().headings.findIndex((heading) => heading.toLowerCase() === name.toLowerCase());
        return place < 0 ? refuse("ItemNotFound", "The requested resource doesn't exist.") : place;
      };
      const parts = ["getRange", "getHeaderRowRange", "getDataBodyRange", "getTotalRowRange"] as const;
      const lazily = (from: () => number, to: () => number) =>
        Object.fromEntries(
          parts.map((part) => [part, () => range(() => (columnsOf(from(), to())[part]() as Located).located())]),
        );
      return object<Table>(
        find,
        { name: ({ name }) => name },
        {
          ...lazily(
            () => 0,
            () => own().headings.length - 1,
          ),
          columns: {
            getItem: (name: string) =>
              lazily(
                () => column(name),
                () => column(name),
              ),
          },
        },
      );
    }

    function partOf(own: Table, from: number, to: number, down: number, rows: number): Area {
      const sheet = sheets.get(own.sheet) as Sheet;
      return { sheet, row: own.row + down, column: own.column + from, rows, columns: to - from + 1 };
    }

    function wholeOf(own: Table): Area {
      return partOf(own, 0, own.headings.length - 1, 0, own.rows + 1);
    }

    const workbook = {
      getSelectedRange: () =>
        range(() =>
          state.selected.includes(",")
            ? refuse("InvalidSelection", "The current selection is invalid for this operation.")
            : areaFrom(state.selected),
        ),
      worksheets: collection(
        () => [...sheets.keys()],
        (name) => worksheet(() => sheets.get(name) ?? refuse("ItemNotFound", "The requested resource doesn't exist.")),
      ),
      names: {
        getItem: (name: string) =>
          named(() => nameIn(name) ?? refuse("ItemNotFound", "The requested resource doesn't exist.")),
        getItemOrNullObject: (name: string) => named(() => nameIn(name)),
      },
      tables: {
        getItem: (name: string) =>
          table(() => tableNamed(name) ?? refuse("ItemNotFound", "The requested resource doesn't exist.")),
        getItemOrNullObject: (name: string) => table(() => tableNamed(name) ?? null),
      },
      properties: {
        custom: {
          getItemOrNullObject: (key: string) =>
            object<string>(() => properties.get(key) ?? null, { value: (value) => value }),
          add: (key: string, value: string) => queue.push(() => properties.set(key, value)),
        },
      },
      onSelectionChanged: { add: (handler: () => unknown) => queue.push(() => handlers.push(handler)) },
    };

    function tableNamed(name: string): Table | undefined {
      return tables.find((one) => one.name.toLowerCase() === name.toLowerCase());
    }

    function collection(names: () => string[], item: (name: string) => object) {
      let items: object[] | undefined;
      return {
        getItem: item,
        load: (properties: string) =>
          queue.push(() => {
            items = names().map((name) => {
              const one = item(name) as { load(names: string): void };
              one.load(properties.replace(/^items\//, ""));
              return one;
            });
          }),
        get items() {
          if (items === undefined) throw new Refused("PropertyNotLoaded", "items is not available");
          return items;
        },
      };
    }

    return {
      workbook,
      async sync(): Promise<void> {
        await Promise.resolve();
        state.exchanges++;
        try {
          for (let next = queue.shift(); next !== undefined; next = queue.shift()) next();
        } finally {
          queue.length = 0;
        }
      },
    };
  }

  function shownAt(sheet: Sheet, row: number, column: number): Content {
    return sheet.cells.get(`${row},${column}`)?.value ?? "";
  }

  const api = book.api ?? "1.16";
  const office = {
    onReady: () => Promise.resolve({ host: api === "" ? null : "Excel", platform: "PC" }),
    HostType: { Excel: "Excel" },
    context: {
      requirements: {
        isSetSupported: (set: string, version: string) =>
          set === "ExcelApi" && Number(version.slice(2)) <= Number(api.slice(2) || "0"),
      },
    },
  };
  const excel = {
    run: async <Result>(work: (own: ReturnType<typeof context>) => Promise<Result>): Promise<Result> => {
      const own = context();
      const result = await work(own);
      await own.sync();
      return result;
    },
  };
  return {
    globals: { Office: office, Excel: excel },
    context,
    state,
    /** What was entered into a cell, and what it shows. */
    cell(address: string): { formula: Content; value: Content } | undefined {
      const { sheet, row, column } = areaFrom(address);
      return sheet.cells.get(`${row},${column}`);
    },
    select(address: string): void {
      state.selected = address;
      for (const handler of handlers) handler();
    },
    properties,
  };
}

interface Located {
  located(): Area;
}

interface Numbers {
  readonly row: number;
  readonly column: number;
}

function needed<Target>(find: Find<Target>): () => Target {
  return () => find() ?? refuse("InvalidObjectPath", "The object is a null object.");
}

function refuse(code: string, message: string): never {
  throw new Refused(code, message);
}

function typeOf(value: Content): string {
  if (value === "") return "Empty";
  if (typeof value === "number") return "Double";
  if (typeof value === "boolean") return "Boolean";
  return ERRORS.test(value) ? "Error" : "String";
}

function grid<Item>(area: Area, item: (sheet: Sheet, row: number, column: number) => Item): Item[][] {
  return Array.from({ length: area.rows }, (_, down) =>
    Array.from({ length: area.columns }, (_, along) => item(area.sheet, area.row + down, area.column + along)),
  );
}

function usedArea(sheet: Sheet): Area | null {
  const places = [...sheet.cells.keys()].map((key) => key.split(",").map(Number) as [number, number]);
  if (places.length === 0) return null;
  const [rows, columns] = [places.map(([row]) => row), places.map(([, column]) => column)];
  const [row, column] = [Math.min(...rows), Math.min(...columns)];
  return { sheet, row, column, rows: Math.max(...rows) - row + 1, columns: Math.max(...columns) - column + 1 };
}

function spillOf({ sheet, row, column }: Area, ofAnchor: boolean): Area | null {
  const found = sheet.spills.find((spill) =>
    ofAnchor
      ? spill.row === row && spill.column === column
      : row >= spill.row &&
        row < spill.row + spill.rows &&
        column >= spill.column &&
        column < spill.column + spill.columns,
  );
  return found ? { sheet, ...found } : null;
}

function around(a: Area, b: Area): Area {
  const [row, column] = [Math.min(a.row, b.row), Math.min(a.column, b.column)];
  return {
    sheet: a.sheet,
    row,
    column,
    rows: Math.max(a.row + a.rows, b.row + b.rows) - row,
    columns: Math.max(a.column + a.columns, b.column + b.columns) - column,
  };
}

function both(a: Area, b: Area): Area | null {
  const [row, column] = [Math.max(a.row, b.row), Math.max(a.column, b.column)];
  const rows = Math.min(a.row + a.rows, b.row + b.rows) - row;
  const columns = Math.min(a.column + a.columns, b.column + b.columns) - column;
  return rows > 0 && columns > 0 && a.sheet === b.sheet ? { sheet: a.sheet, row, column, rows, columns } : null;
}

function columnOf(letters: string): number {
  return [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}

function numbersOf(address: string): Numbers {
  const [, letters = "", row = ""] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  return { row: Number(row) - 1, column: columnOf(letters) };
}

function nameOf(row: number, column: number): string {
  let letters = "";
  for (let left = column + 1; left > 0; left = Math.floor((left - 1) / 26))
    letters = String.fromCharCode(65 + ((left - 1) % 26)) + letters;
  return `${letters}${row + 1}`;
}

function addressOf({ sheet, row, column, rows, columns }: Area): string {
  const name = /^[A-Za-z_]\w*$/.test(sheet.name) ? sheet.name : `'${sheet.name.replace(/'/g, "''")}'`;
  const last = rows * columns > 1 ? `:${nameOf(row + rows - 1, column + columns - 1)}` : "";
  return `${name}!${nameOf(row, column)}${last}`;
}
