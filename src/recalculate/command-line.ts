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
    return parseArgs({ args: withFigures(config, typed), options: config, allowPositionals: true });
  } catch (fault) {
    const { code = "", message } = fault as NodeJS.ErrnoException;
    const option = /--?[\p{L}\p{N}-]+/u.exec(message)?.[0] ?? "an option";
    throw new Complaint(`${TROUBLES[code]?.(option, config) ?? message}\nusage: ${usage}`);
  }
}

/** A figure below zero behind an option that takes a value is that value, so that the command can say what it allows. */
function withFigures(config: Options, typed: readonly string[]): string[] {
  const words: string[] = [];
  for (const word of typed) {
    const option = /^--(.+)$/.exec(words[words.length - 1] ?? "")?.[1];
    const value = option !== undefined && config[option]?.type === "string" && /^-[\d.]/.test(word);
    if (value) words[words.length - 1] = `--${option}=${word}`;
    else words.push(word);
  }
  return words;
}

/** What the reader of options complains of, in words for the person who typed them. */
const TROUBLES: Record<string, (option: string, config: Options) => string> = {
  ERR_PARSE_ARGS_UNKNOWN_OPTION: (option, config) =>
    `${option} is no option here; there are ${Object.keys(config)
      .map((name) => `--${name}`)
      .join(", ")}`,
  ERR_PARSE_ARGS_INVALID_OPTION_VALUE: (option, config) =>
    config[option.replace(/^--/, "")]?.type === "boolean"
      ? `${option} takes no value`
      : `${option} needs a value after it`,
};
