import type { FaceSource } from "./faces/files.ts";
import type { Paper } from "./page.ts";

/**
 * The paper as PDF bytes, in true size: text that can be selected, faces embedded, with a structure for readers that do not see it. Runs in a
 * browser as well as headless; the same paper gives the same bytes. The writer is as large as the rest of the program and is fetched
 * when it is asked for.
 */
export async function toPdf(paper: Paper, faces: FaceSource): Promise<Uint8Array> {
  const { writePdf } = await import("./pdf/write.ts");
  return writePdf(paper, faces);
}
