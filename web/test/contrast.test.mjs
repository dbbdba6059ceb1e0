// Every colour pair that the style sheets put together, against WCAG 2.2 (published): 1.4.3 contrast of text, 4.5 : 1, and
// 1.4.11 contrast of marks that carry meaning, 3 : 1. The ratio itself is the formula of the same document.

import { test } from "node:test";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";

const css = readFileSync(new URL("../style/tokens.css", import.meta.url), "utf8");

const text = [
  ...["ink", "soft", "chalk", "ochre", "oxide"].flatMap((front) => [
    [front, "paper"],
    [front, "sheet"],
  ]),
  ["on-chalk", "chalk"],
  ["paper", "ink"],
  ["sheet", "ink"],
  ["chalk", "chalk-tint"],
  ["ink", "chalk-tint"],
  ["ink", "filled"],
  ["ink", "rest"],
  ["soft", "rest"],
  ["ink", "ochre-tint"],
  ["ochre", "ochre-tint"],
  ["ink", "oxide-tint"],
  ["oxide", "oxide-tint"],
];

const marks = [
  ["edge", "paper"],
  ["edge", "sheet"],
  ["soft", "rest"],
  ["chalk", "rest"],
  ["ochre", "rest"],
  ["oxide", "rest"],
  ["ochre", "chalk-tint"],
];

function tokensAfter(selector) {
  const start = css.indexOf(selector);
  assert.notEqual(start, -1, `no rule ${selector}`);
  const body = css.slice(start, css.indexOf("}", start));
  return Object.fromEntries([...body.matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6});/g)].map((m) => [m[1], m[2]]));
}

function luminance(hex) {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const part = parseInt(hex.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one, other) {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

const themes = {
  light: tokensAfter(":root {"),
  "dark by device": tokensAfter(':root:not([data-theme="light"])'),
  "dark by choice": tokensAfter(':root[data-theme="dark"]'),
};

test("black on white is 21 : 1, as the standard says", () => {
  assert.equal(contrast("#000000", "#ffffff").toFixed(2), "21.00");
});

for (const [name, tokens] of Object.entries(themes)) {
  for (const [pairs, least, what] of [
    [text, 4.5, "text"],
    [marks, 3, "mark"],
  ]) {
    for (const [front, back] of pairs) {
      test(`${name}: ${what} ${front} on ${back}`, () => {
        assert.ok(tokens[front] && tokens[back], `${front} or ${back} is not a token`);
        const ratio = contrast(tokens[front], tokens[back]);
        assert.ok(ratio >= least, `${ratio.toFixed(2)} : 1, wanted ${least} : 1`);
      });
    }
  }
}

test("the two dark themes are one", () => {
  assert.deepEqual(themes["dark by device"], themes["dark by choice"]);
});
