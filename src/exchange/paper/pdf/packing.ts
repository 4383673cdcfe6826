import { zlibSync } from "fflate";

type Doc = PDFKit.PDFDocument;

/**
 * Lets a document pack its streams with one library wherever it is written: the writer's own in Node and that in a browser give other bytes for the
 * same page. The document must be made without compression. What describes the document stays readable, as ISO 14289-1 asks.
 */
export function packAlike(doc: Doc): void {
  const make = doc.ref.bind(doc);
  Reflect.set(doc, "ref", (data: Parameters<Doc["ref"]>[0]) => {
    const ref = make(data);
    const finalize = ref.finalize.bind(ref);
    Reflect.set(ref, "finalize", () => {
      pack(ref);
      finalize();
    });
    return ref;
  });
}

function pack(ref: object): void {
  const chunks: unknown = Reflect.get(ref, "buffer");
  const data: unknown = Reflect.get(ref, "data");
  if (!Array.isArray(chunks) || chunks.length === 0 || typeof data !== "object" || data === null) return;
  if ("Filter" in data || Reflect.get(data, "Type") === "Metadata") return;
  const parts = chunks.filter((one): one is Uint8Array => one instanceof Uint8Array);
  Reflect.set(ref, "buffer", [zlibSync(joined(parts))]);
  Reflect.set(data, "Filter", "FlateDecode");
}

/** Pieces of bytes as one. */
export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.byteLength, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.byteLength;
  }
  return whole;
}
