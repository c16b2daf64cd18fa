import { resolve } from "node:path";
import { parseArgs, type ParseArgsConfig } from "node:util";
import { harmless } from "./harmless";

type Options = NonNullable<ParseArgsConfig["options"]>;

/** A mistake in how a command was called, or in a file it was given: told in one sentence, without a stack. */
export class Complaint extends Error {}

/** What every command is called with. */
export interface Called<Given> {
  readonly options: Given;
  readonly words: string[];
  /** A file as the person who typed it means it, whatever folder the command works in. */
  readonly path: (typed: string) => string;
}

/** Runs a command; complaints go to standard error with exit code 2. */
export async function running<const Config extends Options>(
  usage: string,
  config: Config,
  typed: string[],
  startedIn: string,
  command: (called: Called<Values<Config>>) => number | Promise<number>,
): Promise<number> {
  try {
    const { values, positionals } = parse(config, typed, usage);
    return await command({
      options: values as Values<Config>,
      words: positionals,
      path: (file) => resolve(startedIn, file),
    });
  } catch (fault) {
    if (!(fault instanceof Complaint)) throw fault;
    console.error(fault.message.split("\n").map(harmless).join("\n"));
    return 2;
  }
}

type Values<Config extends Options> = {
  readonly [Name in keyof Config]?: Config[Name]["type"] extends "boolean"
    ? boolean
    : Config[Name]["multiple"] extends true
      ? string[]
      : string;
};

function parse(config: Options, typed: string[], usage: string) {
  try {
    return parseArgs({ args: typed, options: config, allowPositionals: true });
  } catch (fault) {
    throw new Complaint(`${(fault as Error).message}\nusage: ${usage}`);
  }
}
