// Says a line to screen readers through one polite live region. The region is made on first use and kept, because a
// region that arrives together with its words is often not read.

let region: HTMLElement | undefined;

export function say(words: string): void {
  if (!region) {
    region = document.createElement("p");
    region.className = "said";
    region.setAttribute("role", "status");
    document.body.append(region);
  }
  const line = region;
  line.textContent = "";
  setTimeout(() => (line.textContent = words), 60);
}
