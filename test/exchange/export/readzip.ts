import { crc32, inflateRawSync } from "node:zlib";

/**
 * The files in a zip by name, read without the library that writes it: the central directory as ZIP's application note lays it out
 * (APPNOTE.TXT 6.3, sections 4.3.7, 4.3.12 and 4.3.16, from memory), unpacked by Node's own zlib, sizes and checksums held to what is said.
 */
export function readZip(bytes: Uint8Array): Map<string, string> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = bytes.length - 22;
  expectSignature(view, end, 0x06054b50);
  const count = view.getUint16(end + 10, true);
  const files = new Map<string, string>();
  let at = view.getUint32(end + 16, true);
  for (let n = 0; n < count; n += 1) {
    expectSignature(view, at, 0x02014b50);
    const [method, crc] = [view.getUint16(at + 10, true), view.getUint32(at + 16, true)];
    const [packed, whole] = [view.getUint32(at + 20, true), view.getUint32(at + 24, true)];
    const [nameLength, extra, note] = [28, 30, 32].map((from) => view.getUint16(at + from, true)) as [
      number,
      number,
      number,
    ];
    const local = view.getUint32(at + 42, true);
    expectSignature(view, local, 0x04034b50);
    const body = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    const data = bytes.subarray(body, body + packed);
    const text = method === 8 ? inflateRawSync(data) : Buffer.from(data);
    const name = Buffer.from(bytes.subarray(at + 46, at + 46 + nameLength)).toString("utf8");
    if (text.length !== whole || crc32(text) !== crc) throw new Error(`${name} is not what the zip says`);
    files.set(name, text.toString("utf8"));
    at += 46 + nameLength + extra + note;
  }
  return files;
}

function expectSignature(view: DataView, at: number, signature: number): void {
  if (view.getUint32(at, true) !== signature) throw new Error(`no ${signature.toString(16)} at ${at}`);
}
