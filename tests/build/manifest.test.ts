import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import { validateManifest } from "office-addin-manifest";
import { describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { addressOf } from "../../src/build/addresses.mjs";
import { writeManifests } from "../../src/build/manifest.mjs";
import { bundledFunctions } from "../support/functions";

const xml = readFileSync("dist/manifest.xml", "utf8");
const unified = JSON.parse(readFileSync("dist/manifest.json", "utf8")) as {
  id: string;
  version: string;
  name: { short: string };
  developer: { name: string };
  icons: { color: string; outline: string };
  validDomains: string[];
  extensions: {
    requirements: { capabilities: { name: string; minVersion: string }[] };
    runtimes: {
      code: { page: string; script: string };
      customFunctions: { namespace: { id: string; name: string }; metadataUrl: string };
    }[];
  }[];
};
const metadata = JSON.parse(readFileSync("dist/functions.json", "utf8")) as {
  allowErrorForDataTypeAny?: boolean;
  functions: { id: string; helpUrl: string }[];
};
const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
const ORIGIN = "https://localhost:3000";

const all = (pattern: RegExp, text = xml) => [...text.matchAll(pattern)].map((match) => match[1] as string);
const only = (pattern: RegExp) => {
  const found = all(pattern);
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
    const used = all(/resid="([^"]*)"/g);
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

  test("has one extension point and asks for reading only", () => {
    expect(all(/<ExtensionPoint xsi:type="([^"]*)"/g)).toEqual(["CustomFunctions"]);
    expect(only(/<Permissions>(.*?)<\/Permissions>/g)).toBe("ReadDocument");
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
    const runtime = extension?.runtimes[0];
    const urlOf = (id: string) => only(new RegExp(`id="${id}" DefaultValue="([^"]*)"`, "g"));
    expect({
      id: unified.id,
      name: unified.name.short,
      provider: unified.developer.name,
      requirement: extension?.requirements.capabilities[0],
      script: runtime?.code.script,
      page: runtime?.code.page,
      metadata: runtime?.customFunctions.metadataUrl,
      namespace: runtime?.customFunctions.namespace,
    }).toEqual({
      id: only(/<Id>(.*?)<\/Id>/g),
      name: only(/<DisplayName DefaultValue="([^"]*)"/g),
      provider: only(/<ProviderName>(.*?)<\/ProviderName>/g),
      requirement: { name: only(/<Set Name="([^"]*)"/g), minVersion: only(/<Set [^>]*MinVersion="([^"]*)"/g) },
      script: urlOf("Functions.Script.Url"),
      page: urlOf("Functions.Page.Url"),
      metadata: urlOf("Functions.Metadata.Url"),
      namespace: { id: urlOf("Functions.Namespace"), name: urlOf("Functions.Namespace") },
    });
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

describe("an address to upload to", () => {
  test("may have a path; both manifests then name it everywhere", () => {
    const folder = mkdtempSync(join(tmpdir(), "manifests-"));
    cpSync("dist/icons", join(folder, "icons"), { recursive: true });
    writeManifests(folder, { origin: addressOf("https://example.org/yarn/"), version: "1.2.3" });
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
