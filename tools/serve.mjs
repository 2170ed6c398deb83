// A small static server for the built app, on this machine only:
//   node tools/serve.mjs FOLDER
// PORT asks for a port (8080 otherwise; the next free one is taken), BASE for a sub-path.
// It sends the headers that public/_headers recommends to any static host.
import { createServer } from "node:http";
import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { extname, join, normalize, resolve, sep } from "node:path";
import { brotliCompressSync } from "node:zlib";
import { readHeaders } from "./headers.mjs";

const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};
const PACKED = new Set([".css", ".html", ".js", ".json", ".svg", ".wasm", ".webmanifest"]);

const folder = resolve(process.argv[2] ?? "dist");
const base = `/${(process.env.BASE ?? "").split("/").filter(Boolean).join("/")}/`.replace("//", "/");
const headers = await readHeaders(join(folder, "_headers"));
const packed = new Map();

/** The brotli form of a file, made once for each content. */
function pack(tag, body) {
  if (!packed.has(tag)) packed.set(tag, brotliCompressSync(body));
  return packed.get(tag);
}

async function answer(request, response) {
  const path = decodeURIComponent(new URL(request.url, "http://local").pathname);
  if (path + "/" === base) {
    return response.writeHead(301, { Location: base }).end();
  }
  if (request.method !== "GET" && request.method !== "HEAD") return response.writeHead(405).end();
  if (!path.startsWith(base)) return response.writeHead(404).end();

  const name = path.slice(base.length);
  const file = normalize(join(folder, name.endsWith("/") || name === "" ? `${name}index.html` : name));
  // Nothing outside the folder, and not the file that only tells hosts their headers.
  if (!file.startsWith(folder + sep) || name === "_headers") return response.writeHead(404).end();

  let body;
  try {
    body = await readFile(file);
  } catch {
    return response.writeHead(404, { "Content-Type": "text/plain" }).end("not found\n");
  }
  const kind = extname(file);
  const tag = `"${createHash("sha256").update(body).digest("base64url").slice(0, 22)}"`;
  const out = { ...headers, "Content-Type": TYPES[kind] ?? "application/octet-stream", ETag: tag };
  if (request.headers["if-none-match"] === tag) return response.writeHead(304, out).end();
  if (PACKED.has(kind)) {
    out.Vary = "Accept-Encoding";
    if (/\bbr\b/.test(request.headers["accept-encoding"] ?? "")) {
      body = pack(tag, body);
      out["Content-Encoding"] = "br";
    }
  }
  out["Content-Length"] = body.length;
  response.writeHead(200, out).end(request.method === "HEAD" ? undefined : body);
}

const server = createServer((request, response) => {
  answer(request, response).catch(() => response.writeHead(400).end());
});

let port = Number(process.env.PORT ?? 8080);
const last = port + 50;
server.on("error", (error) => {
  if (error.code !== "EADDRINUSE" || port >= last) throw error;
  port += 1;
  server.listen(port, "127.0.0.1");
});
server.on("listening", () => {
  console.log(`\nFreshet: http://127.0.0.1:${server.address().port}${base}   (Ctrl-C stops it)`);
});
server.listen(port, "127.0.0.1");
