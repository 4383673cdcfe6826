import type { Sketch } from "./sketch.ts";

/** The lanes and the bench of a sketch as elements: drawn without the program, which is not there yet where it is drawn first. */
export function drawn({ evas, bench }: Sketch): readonly HTMLElement[] {
  const sections = evas.map(({ name, lanes }) =>
    section(
      name,
      lanes.map(({ crew, blocks }) => {
        const list = element("ul");
        for (const one of blocks) {
          const block = element("li", one.name);
          block.style.left = percent(one.from);
          block.style.right = percent(1 - one.to);
          list.append(block);
        }
        const lane = element("div");
        lane.className = "first-lane";
        lane.append(element("span", crew), list);
        return lane;
      }),
    ),
  );
  return bench.length > 0 ? [...sections, section("Bench", [element("p", bench.join(" · "))])] : sections;
}

function section(name: string, parts: readonly HTMLElement[]): HTMLElement {
  const made = element("section");
  made.ariaLabel = name;
  made.append(element("h2", name), ...parts);
  return made;
}

function element(kind: string, text = ""): HTMLElement {
  const made = document.createElement(kind);
  made.textContent = text;
  return made;
}

function percent(share: number): string {
  return `${100 * share}%`;
}
