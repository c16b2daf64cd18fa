/** Where a build is tried: on this computer. */
export const DEFAULT_ORIGIN = "https://localhost:3000";

/**
 * The address that a build will be served from: https, perhaps with a path, without a slash at its end.
 * @param {string} origin
 */
export function addressOf(origin) {
  if (!URL.canParse(origin)) throw new Error(`the origin is "${origin}"; write it like https://example.org/yarn`);
  const { protocol, origin: host, pathname, search, hash } = new URL(origin);
  if (protocol !== "https:") throw new Error(`the origin is ${origin}; Excel loads add-ins over https only`);
  if (search + hash !== "") throw new Error(`the origin is ${origin}; it must end before ? and #`);
  return host + pathname.replace(/\/+$/, "");
}

/**
 * The folder that is built for an address: dist is for trying and is built anew all the time, so what is to be uploaded
 * has a folder of its own, which nothing else writes to.
 * @param {string} origin
 */
export function folderFor(origin) {
  const address = addressOf(origin);
  if (address === DEFAULT_ORIGIN) return "dist";
  return `dist-${address.replace(/^https:\/\//, "").replace(/[^a-z0-9.]+/gi, "-")}`;
}
