import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import { validateManifest } from "office-addin-manifest";
import { afterAll, describe, expect, test } from "vitest";
import { build } from "../../src/build/build.mjs";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { addressOf } from "../../src/build/addresses.mjs";
import { writeManifests } from "../../src/build/manifest.mjs";
import { bundledFunctions } from "../support/functions";

const xml = readFileSync("dist/manifest.xml", "utf8");
interface Runtime {
  id: string;
  lifetime: string;
  code: { page: string; script?: string };
  actions: { id: string; type: string }[];
  customFunctions?: { namespace: { id: string; name: string }; metadataUrl: string };
}

interface Icon {
  size: number;
  url: string;
}

interface Unified {
  id: string;
  version: string;
  name: { short: string };
  developer: { name: string };
  icons: { color: string; outline: string };
  validDomains: string[];
  authorization: { permissions: { resourceSpecific: { name: string }[] } };
  extensions: {
    requirements: { capabilities: { name: string; minVersion: string }[] };
    runtimes: Runtime[];
    ribbons: {
      tabs: {
        builtInTabId: string;
        groups: {
          label: string;
          icons: Icon[];
          controls: {
            label: string;
            icons: Icon[];
            supertip: { title: string; description: string };
            actionId: string;
          }[];
        }[];
      }[];
    }[];
  }[];
}

const unified = JSON.parse(readFileSync("dist/manifest.json", "utf8")) as Unified;
const buttonOf = (manifest: Unified) => {
  const [tab] = manifest.extensions[0]?.ribbons[0]?.tabs ?? [];
  const [group] = tab?.groups ?? [];
  return { tab: tab?.builtInTabId, group: group?.label, icons: group?.icons, ...group?.controls[0] };
};
const functionsRuntimeOf = (manifest: Unified) =>
  manifest.extensions[0]?.runtimes.find(({ customFunctions }) => customFunctions !== undefined);
const metadata = JSON.parse(readFileSync("dist/functions.json", "utf8")) as {
  allowErrorForDataTypeAny?: boolean;
  functions: { id: string; helpUrl: string }[];
};
const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
const ORIGIN = "https://localhost:3000";

const all = (pattern: RegExp, text = xml) => [...text.matchAll(pattern)].map((match) => match[1] as string);
const only = (pattern: RegExp, text = xml) => {
  const found = all(pattern, text);
  expect(found, String(pattern)).toHaveLength(1);
  return found[0] as string;
};

/** Every address of both manifests but the names of schemas. */
const addresses = [
  ...all(/DefaultValue="(https?:[^"]*)"/g),
  ...all(/"(https?:[^"]*)"/g, JSON.stringify({ ...unified, $schema: "" })),
  ...metadata.functions.map(({ helpUrl }) => helpUrl),
];

/** Width and height as the PNG's own header says. */
function sizeOf(file: string): string {
  const header = readFileSync(file);
  expect(header.toString("latin1", 1, 4)).toBe("PNG");
  return `${header.readUInt32BE(16)}×${header.readUInt32BE(20)}`;
}

describe("the XML manifest", () => {
  test("every resource id is defined, used and at most 32 characters long", () => {
    const used = new Set(all(/resid="([^"]*)"/g));
    const defined = all(/<bt:(?:Url|String|Image) id="([^"]*)"/g);
    expect([...used].sort()).toEqual([...defined].sort());
    for (const id of defined) expect(id.length).toBeLessThanOrEqual(32);
  });

  test("is well formed as far as its elements nest", () => {
    const open: string[] = [];
    for (const [, slash, name, , closed] of xml.matchAll(/<(\/?)([A-Za-z:]+)((?:\s[\w:]+="[^"<]*")*)\s*(\/?)>/g)) {
      if (slash) expect(open.pop()).toBe(name);
      else if (!closed) open.push(name as string);
    }
    expect(open).toEqual([]);
    expect(xml.match(/&(?!amp;|lt;|quot;)/)).toBeNull();
  });

  test("has the functions and a button on Home that opens the pane, which writes on a click", () => {
    expect(all(/<ExtensionPoint xsi:type="([^"]*)"/g)).toEqual(["CustomFunctions", "PrimaryCommandSurface"]);
    expect(only(/<Permissions>(.*?)<\/Permissions>/g)).toBe("ReadWriteDocument");
    expect(only(/<OfficeTab id="([^"]*)"/g)).toBe("TabHome");
    expect(only(/<Action xsi:type="([^"]*)"/g)).toBe("ShowTaskpane");
    // Limits of the schema: short strings 125 characters, long ones 250.
    for (const [list, most] of [
      ["ShortStrings", 125],
      ["LongStrings", 250],
    ] as const) {
      const [strings] = all(new RegExp(`<bt:${list}>([^]*?)</bt:${list}>`, "g"));
      for (const text of all(/DefaultValue="([^"]*)"/g, strings)) expect(text.length).toBeLessThanOrEqual(most);
    }
  });

  test("puts its elements in the order of the schema (MS-OWEMXML, TaskPaneAppVersionOverrides)", () => {
    const places = ["<AllFormFactors", "<DesktopFormFactor", "<Resources"].map((tag) => xml.indexOf(tag));
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    const lists = ["<bt:Images", "<bt:Urls", "<bt:ShortStrings", "<bt:LongStrings"].map((tag) => xml.indexOf(tag));
    expect([...lists].sort((a, b) => a - b)).toEqual(lists);
    expect(Math.min(...places, ...lists)).toBeGreaterThan(0);
  });
});

describe("both manifests", () => {
  test("hold no blank that was not filled", () => {
    expect(xml + JSON.stringify(unified)).not.toMatch(/\{\{|\}\}"|undefined/);
  });

  test("name only https addresses of one origin, and each is a file that was built", () => {
    expect(addresses.length).toBeGreaterThan(12);
    for (const address of addresses) {
      const { origin, pathname } = new URL(address);
      expect(origin, address).toBe(ORIGIN);
      expect(existsSync(`dist${pathname}`), address).toBe(true);
    }
    expect(unified.validDomains).toEqual([new URL(ORIGIN).host]);
  });

  test("tell the same facts", () => {
    const [extension] = unified.extensions;
    const runtime = functionsRuntimeOf(unified);
    const pane = extension?.runtimes.find(({ actions }) => actions.some(({ type }) => type === "openPage"));
    const button = buttonOf(unified);
    const urlOf = (id: string) => only(new RegExp(`id="${id}" DefaultValue="([^"]*)"`, "g"));
    expect({
      id: unified.id,
      name: unified.name.short,
      provider: unified.developer.name,
      requirement: extension?.requirements.capabilities[0],
      script: runtime?.code.script,
      page: runtime?.code.page,
      metadata: runtime?.customFunctions?.metadataUrl,
      namespace: runtime?.customFunctions?.namespace,
      permission: unified.authorization.permissions.resourceSpecific.map(({ name }) => name),
      pane: pane?.code.page,
      opens: pane?.actions.map(({ id }) => id),
      group: button.group,
      label: button.label,
      title: button.supertip?.title,
      purpose: button.supertip?.description,
      icons: button.icons,
      home: button.tab,
    }).toEqual({
      id: only(/<Id>(.*?)<\/Id>/g),
      name: only(/<DisplayName DefaultValue="([^"]*)"/g),
      provider: only(/<ProviderName>(.*?)<\/ProviderName>/g),
      requirement: { name: only(/<Set Name="([^"]*)"/g), minVersion: only(/<Set [^>]*MinVersion="([^"]*)"/g) },
      script: urlOf("Functions.Script.Url"),
      page: urlOf("Functions.Page.Url"),
      metadata: urlOf("Functions.Metadata.Url"),
      namespace: { id: urlOf("Functions.Namespace"), name: urlOf("Functions.Namespace") },
      permission: ["Document.ReadWrite.User"],
      pane: urlOf("Pane.Url"),
      opens: [button.actionId],
      group: urlOf("Group.Label"),
      label: urlOf("Button.Label"),
      title: urlOf("Button.Label"),
      purpose: urlOf("Button.Purpose"),
      icons: [16, 32, 80].map((size) => ({ size, url: urlOf(`Icon.${size}`) })),
      home: only(/<OfficeTab id="([^"]*)"/g),
    });
    expect(only(/<DefaultSettings>\s*<SourceLocation DefaultValue="([^"]*)"/g)).toBe(urlOf("Pane.Url"));
    // The pages of Microsoft on custom functions in this manifest want an action in the functions' runtime too.
    expect(runtime?.actions.map(({ type }) => type)).toEqual(["executeFunction"]);
    // CustomFunctions.Error has its newer codes from 1.3 on; 1.4 is not supported by Excel 2024 (Microsoft's table of
    // the requirement sets).
    expect(extension?.requirements.capabilities[0]?.minVersion).toBe("1.3");
    // The namespace is part of every formula that is saved in a workbook.
    expect(urlOf("Functions.Namespace")).toBe("YARN");
  });

  test("carry the version that the package, the bundle and the guide carry", () => {
    const bundled = (bundledFunctions().get("VERSION")?.() as string[][])[0]?.[0];
    const guide = /Version ([\d.]+)\./.exec(readFileSync("dist/guide/index.html", "utf8"))?.[1];
    expect([unified.version, bundled, guide, only(/<Version>(.*?)<\/Version>/g)]).toEqual([
      version,
      version,
      version,
      `${version}.0`,
    ]);
  });

  test("name icons that exist at their size", () => {
    const iconOf = (element: string) =>
      `dist${new URL(only(new RegExp(`<${element} DefaultValue="([^"]*)"`, "g"))).pathname}`;
    expect(sizeOf(iconOf("IconUrl"))).toBe("32×32");
    expect(sizeOf(iconOf("HighResolutionIconUrl"))).toBe("64×64");
    expect(sizeOf(`dist/${unified.icons.color}`)).toBe("192×192");
    expect(sizeOf(`dist/${unified.icons.outline}`)).toBe("32×32");
    for (const [id, size] of [...xml.matchAll(/<bt:Image id="Icon\.(\d+)"/g)].map(([, size]) => [`Icon.${size}`, size]))
      expect(sizeOf(`dist${new URL(only(new RegExp(`id="${id}" DefaultValue="([^"]*)"`, "g"))).pathname}`)).toBe(
        `${size}×${size}`,
      );
    for (const size of [16, 32, 64, 80]) expect(sizeOf(`dist/icons/icon-${size}.png`)).toBe(`${size}×${size}`);
  });

  test("the ids of functions.json are those that are associated and those that are documented", () => {
    const ids = metadata.functions.map(({ id }) => id).sort();
    expect(ids).toEqual([...bundledFunctions().keys()].sort());
    expect(ids).toEqual(
      documentedFunctions()
        .map(({ id }) => id)
        .sort(),
    );
  });
});

describe("functions.json", () => {
  test("takes error values in arguments, and no rich values, which crash Excel 2021 beside them", () => {
    expect(metadata.allowErrorForDataTypeAny).toBe(true);
    expect(metadata).not.toHaveProperty("allowCustomDataForDataTypeAny");
  });
});

describe("the unified manifest", () => {
  test("agrees with its schema, as its maker's own validator sees it", async () => {
    const { isValid, report } = await validateManifest("dist/manifest.json");
    expect(report?.errors ?? []).toEqual([]);
    expect(isValid).toBe(true);
  });

  test("is packed with the icons it names", () => {
    const files = unzipSync(readFileSync("dist/unified-manifest.zip"));
    expect(JSON.parse(strFromU8(files["manifest.json"] as Uint8Array))).toEqual(unified);
    for (const icon of Object.values(unified.icons)) {
      expect(Buffer.from(files[icon] as Uint8Array).equals(readFileSync(`dist/${icon}`))).toBe(true);
    }
  });
});

describe("with a shared runtime", () => {
  const folder = mkdtempSync(join(tmpdir(), "shared-"));
  cpSync("dist/icons", join(folder, "icons"), { recursive: true });
  writeManifests(folder, { origin: ORIGIN, version, runtime: "shared" });
  afterAll(() => rmSync(folder, { recursive: true }));
  const sharedXml = readFileSync(join(folder, "manifest.xml"), "utf8");
  const shared = JSON.parse(readFileSync(join(folder, "manifest.json"), "utf8")) as Unified;

  test("the XML manifest names one long-lived runtime, and the functions and the pane by its id", () => {
    const [runtime] = all(/<Runtime resid="([^"]*)" lifetime="long"\/>/g, sharedXml);
    expect(runtime).toBe("Pane.Url");
    expect(sharedXml.indexOf("<Runtimes>")).toBeLessThan(sharedXml.indexOf("<AllFormFactors>"));
    expect(only(/<Page>\s*<SourceLocation resid="([^"]*)"/g, sharedXml)).toBe(runtime);
    expect(only(/<TaskpaneId>\w+<\/TaskpaneId>\s*<SourceLocation resid="([^"]*)"/g, sharedXml)).toBe(runtime);
    expect(all(/<Set Name="([^"]*)"/g, sharedXml)).toEqual(["CustomFunctionsRuntime", "SharedRuntime"]);
    const defined = all(/<bt:(?:Url|String|Image) id="([^"]*)"/g, sharedXml);
    expect([...new Set(all(/resid="([^"]*)"/g, sharedXml))].sort()).toEqual([...defined].sort());
  });

  test("the unified manifest has the one runtime, and its maker's validator takes it", async () => {
    expect(shared.extensions[0]?.runtimes).toHaveLength(1);
    expect(functionsRuntimeOf(shared)).toMatchObject({
      lifetime: "long",
      code: { page: `${ORIGIN}/pane.html`, script: `${ORIGIN}/functions.js` },
      actions: [{ id: buttonOf(shared).actionId, type: "openPage" }],
    });
    const { isValid, report } = await validateManifest(join(folder, "manifest.json"));
    expect([isValid, report?.errors ?? []]).toEqual([true, []]);
  });

  test("everything else is the same", () => {
    const rest = ({ id, name, icons, authorization, extensions }: Unified) => ({
      ...{ id, name, icons, authorization },
      ribbons: extensions[0]?.ribbons,
    });
    expect(rest(shared)).toEqual(rest(unified));
    expect(only(/<Id>(.*?)<\/Id>/g, sharedXml)).toBe(unified.id);
  });

  test("no other runtime is built", () => expect(build({ runtime: "none" as never })).rejects.toThrow(/own or shared/));
});

describe("an address to upload to", () => {
  test("may have a path; both manifests then name it everywhere", () => {
    const folder = mkdtempSync(join(tmpdir(), "manifests-"));
    cpSync("dist/icons", join(folder, "icons"), { recursive: true });
    writeManifests(folder, { origin: addressOf("https://example.org/yarn/"), version: "1.2.3", runtime: "own" });
    for (const file of ["manifest.xml", "manifest.json"]) {
      const text = readFileSync(join(folder, file), "utf8");
      expect(text).not.toContain("localhost");
      expect(text).toContain('"https://example.org/yarn/functions.json"');
      expect(text).toContain('"https://example.org/yarn/guide/index.html"');
    }
    rmSync(folder, { recursive: true });
  });

  test.each(["http://example.org", "https://example.org/?a=1", "https://example.org/#a", "example.org", ""])(
    "%s is refused",
    (origin) => expect(() => addressOf(origin)).toThrow(),
  );
});
