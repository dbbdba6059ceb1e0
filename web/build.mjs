// Bundles style and scripts and copies the font: `npm run build` fills dist/ with
// app.css, sheets.css (all pages but Now and Walk), app.js, walk.js (the walk alone), sw.js (the worker), fonts/ and
// icons, which the server embeds and serves under /assets/.

import { build } from "esbuild";
import { copyFile, mkdir, readdir, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const out = join(here, "dist");
const font = join(here, "node_modules", "@fontsource", "barlow-semi-condensed");
const weights = [400, 500, 600];

await rm(out, { recursive: true, force: true });
await mkdir(join(out, "fonts"), { recursive: true });

await build({
  entryPoints: {
    app: join(here, "src", "app.ts"),
    walk: join(here, "src", "walk.ts"),
    sw: join(here, "worker", "sw.ts"),
    "app-style": join(here, "style", "app.css"),
    sheets: join(here, "style", "sheets.css"),
  },
  outdir: out,
  entryNames: "[name]",
  bundle: true,
  minify: true,
  format: "iife",
  target: ["es2022", "chrome120", "firefox121", "safari17"],
  external: ["/assets/*"],
  legalComments: "none",
  logLevel: "warning",
});
await copyFile(join(out, "app-style.css"), join(out, "app.css"));
await rm(join(out, "app-style.css"));

for (const weight of weights) {
  const name = `barlow-semi-condensed-latin-${weight}-normal.woff2`;
  await copyFile(join(font, "files", name), join(out, "fonts", name));
}
await copyFile(join(font, "LICENSE"), join(out, "fonts", "OFL.txt"));
for (const icon of await readdir(join(here, "icons"))) {
  await copyFile(join(here, "icons", icon), join(out, icon));
}
