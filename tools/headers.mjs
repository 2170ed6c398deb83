// Reads public/_headers, the one place where the app's recommended headers stand.
import { readFile } from "node:fs/promises";

/** The headers that hold for every path, by name. */
export async function readHeaders(file) {
  const headers = {};
  let every = false;
  for (const line of (await readFile(file, "utf8")).split("\n")) {
    if (line.trim() === "" || line.startsWith("#")) continue;
    if (!/^\s/.test(line)) {
      every = line.trim() === "/*";
      if (!every) throw new Error(`${file}: only the section /* is understood, found ${line}`);
      continue;
    }
    const cut = line.indexOf(":");
    headers[line.slice(0, cut).trim()] = line.slice(cut + 1).trim();
  }
  return headers;
}
