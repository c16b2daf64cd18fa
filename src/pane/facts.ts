import type { FunctionFacts, Listed } from "../guide/page/function-facts";

const known = new Map<string, Promise<unknown>>();

function loaded<Facts>(file: string): Promise<Facts> {
  let facts = known.get(file) as Promise<Facts> | undefined;
  if (facts === undefined) {
    facts = fetch(`pane/${file}`).then((answer) => {
      if (!answer.ok) throw new Error(`${file} could not be loaded (${answer.status})`);
      return answer.json() as Promise<Facts>;
    });
    known.set(file, facts);
    facts.catch(() => known.delete(file));
  }
  return facts;
}

/** What is known of one function; fetched when it is first asked for, from where the pane itself came from. */
export function factsOf(id: string): Promise<FunctionFacts> {
  return loaded<FunctionFacts>(`${id}.json`);
}

export function listOfFunctions(): Promise<readonly Listed[]> {
  return loaded<readonly Listed[]>("index.json");
}
