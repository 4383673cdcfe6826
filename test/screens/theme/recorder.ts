/** A canvas that draws nothing and remembers what it was told, a line a call; widths are six pixels a letter. */
export function recorder(): { readonly ctx: CanvasRenderingContext2D; readonly calls: string[] } {
  const calls: string[] = [];
  const set = new Map<string | symbol, unknown>();
  const ctx = new Proxy(
    {},
    {
      get(_target, name) {
        if (set.has(name)) return set.get(name);
        if (name === "measureText") return (text: string) => ({ width: text.length * 6 });
        if (name === "createPattern") return () => ({ setTransform: () => undefined });
        return (...given: unknown[]) => {
          const words = given.map((one) => (Array.isArray(one) ? one.join(",") : String(one)));
          calls.push([String(name), ...words].join(" "));
        };
      },
      set(_target, name, value) {
        set.set(name, value);
        calls.push(`${String(name)} = ${String(value)}`);
        return true;
      },
    },
  );
  return { ctx: ctx as CanvasRenderingContext2D, calls };
}
