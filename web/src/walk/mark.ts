// The stack mark, drawn as the server draws it: layers done are hatched and filled, the one in hand or ready is chalk,
// those to come are dashed.

import { svg } from "./el";
import type { How, Layer } from "./known";

const [WIDTH, HEIGHT, LEAST] = [40, 34, 5];

export function stackMark(name: string, layers: (Layer & How)[]): SVGElement {
  const done = layers.filter(({ is }) => is === "done").length;
  const drawing = svg("svg", { class: "stack-mark", width: 44, height: 40, viewBox: "0 0 44 40", role: "img" }, svg("title", {}, `${name}: ${done} of ${layers.length} layers done`));
  const frames = depths(layers);
  let x = 2;
  const placed = layers.map((layer, index) => {
    const width = frames[index] ?? 0;
    const at = x;
    x += width;
    return { layer, at, width };
  });
  // The line that matters most is drawn last, over its neighbours'.
  const turn = ({ is }: How): number => (is === "done" ? 1 : is === "in-hand" || is === "next" ? 2 : 0);
  placed.sort((a, b) => turn(a.layer) - turn(b.layer));
  for (const { layer, at, width } of placed) drawing.append(...drawn(layer, at, width));
  return drawing;
}

function drawn(layer: Layer, x: number, width: number): SVGElement[] {
  const frame = { x: x.toFixed(1), y: 3, width: width.toFixed(1), height: HEIGHT };
  const fill = (letter: string): string => `url(#h-${layer.hatch}-${letter})`;
  switch (layer.is) {
    case "done":
      return [svg("rect", { class: "done", ...frame, fill: fill("f") })];
    case "next":
      return [svg("rect", { class: "next", ...frame, fill: fill("c") })];
    case "in-hand": {
      const high = (HEIGHT - 2) * Math.min(1, (layer.share ?? 0) / 100);
      const part = svg("rect", { class: "part", x: (x + 1).toFixed(1), y: (2 + HEIGHT - high).toFixed(1), width: Math.max(0, width - 2).toFixed(1), height: high.toFixed(1), fill: fill("f") });
      const whole = svg("rect", { class: "in-hand", ...frame, fill: fill("c") });
      return high < 0.5 ? [whole] : [whole, part];
    }
    default:
      return [svg("rect", { class: "to-come", ...frame })];
  }
}

/** Square roots of the thicknesses shared out over the mark, none too thin to see. */
function depths(layers: Layer[]): number[] {
  const even = WIDTH / layers.length;
  if (even <= LEAST) return layers.map(() => even);
  const roots = layers.map(({ mm = 0 }) => Math.sqrt(Math.max(mm, 0.2)));
  const sum = roots.reduce((all, one) => all + one, 0);
  const free = WIDTH - LEAST * layers.length;
  return roots.map((root) => LEAST + (free * root) / sum);
}
