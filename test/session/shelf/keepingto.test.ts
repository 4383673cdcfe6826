import { describe, expect, it } from "vitest";
import { planText } from "../../../src/exchange/index.ts";
import type { FileHandle, FileHandles, KeptFile } from "../../../src/session/shelf/filehandle.ts";
import { sessionWith } from "../bench.ts";

/** A file that remembers what was written and answers for its permission as it is told. */
class HandFile implements FileHandle {
  readonly name = "plan.json";
  text: string;
  permission: PermissionState = "granted";
  answer: PermissionState = "granted";
  asked = 0;
  broken = false;
  constructor(text = "") {
    this.text = text;
  }
  getFile() {
    return Promise.resolve({ text: () => Promise.resolve(this.text) });
  }
  createWritable() {
    if (this.broken) return Promise.reject(new Error("the disk is full"));
    let written = "";
    return Promise.resolve({
      write: (text: string) => Promise.resolve(void (written += text)),
      close: () => Promise.resolve(void (this.text = written)),
    });
  }
  queryPermission() {
    return Promise.resolve(this.permission);
  }
  requestPermission() {
    this.asked += 1;
    this.permission = this.answer;
    return Promise.resolve(this.answer);
  }
}

function handlesIn(map: Map<string, KeptFile>): FileHandles {
  return {
    read: (slot) => Promise.resolve(map.get(slot) ?? null),
    write: (slot, kept) => Promise.resolve(void map.set(slot, kept)),
  };
}

describe("a plan that is kept to a file", () => {
  it("is saved into it, in the text that a download has, again and again; each plan into its own", async () => {
    const map = new Map<string, KeptFile>();
    const { session } = sessionWith({ handles: handlesIn(map) });
    const file = new HandFile();
    expect(await session.saveToItsFile()).toEqual({ end: "none" });
    await session.keepTo(file);
    expect(await session.saveToItsFile()).toEqual({ end: "written", name: "plan.json" });
    expect(file.text).toBe(session.saveText());
    expect(file.text).toBe(planText(session.state.getState().plan));
    session.edit("Rename", () => ({ title: "Later" }));
    expect((await session.saveToItsFile()).end).toBe("written");
    expect(file.text).toBe(session.saveText());
    session.newPlan();
    expect((await session.saveToItsFile()).end).toBe("none");
    expect(map.size).toBe(1);
  });

  it("is not written over what somebody else has put there since, but when that is said", async () => {
    const { session } = sessionWith();
    const file = new HandFile();
    await session.keepTo(file);
    await session.saveToItsFile();
    file.text = `${file.text} `;
    const others = file.text;
    expect((await session.saveToItsFile()).end).toBe("changed");
    expect(file.text).toBe(others);
    expect((await session.saveToItsFile(true)).end).toBe("written");
    expect(file.text).toBe(session.saveText());
    // A file that was chosen and holds something is somebody else's too.
    const foreign = new HandFile("my diary");
    await session.keepTo(foreign);
    expect((await session.saveToItsFile()).end).toBe("changed");
    expect(foreign.text).toBe("my diary");
  });

  it("asks for leave again, and writes nothing without it; a fault of the disk is said", async () => {
    const { session } = sessionWith();
    const file = new HandFile();
    await session.keepTo(file);
    file.permission = "prompt";
    file.answer = "denied";
    expect((await session.saveToItsFile()).end).toBe("refused");
    expect([file.asked, file.text]).toEqual([1, ""]);
    file.permission = "prompt";
    file.answer = "granted";
    expect((await session.saveToItsFile()).end).toBe("written");
    file.broken = true;
    session.edit("Rename", () => ({ title: "Later" }));
    expect(await session.saveToItsFile()).toEqual({
      end: "failed",
      name: "plan.json",
      message: "the disk is full",
    });
  });

  it("is opened from it and saved back into it; what is no plan is refused and kept to nothing", async () => {
    const map = new Map<string, KeptFile>();
    const { session } = sessionWith({ handles: handlesIn(map) });
    const file = new HandFile(session.saveText().replace(/"title": "[^"]*"/, '"title": "From a file"'));
    expect(await session.openFrom(file)).toBe(true);
    expect(session.state.getState().plan.title).toBe("From a file");
    session.edit("Rename", () => ({ title: "Edited" }));
    expect((await session.saveToItsFile()).end).toBe("written");
    expect(file.text).toContain('"title": "Edited"');
    const kept = map.size;
    expect(await session.openFrom(new HandFile("{}"))).toBe(false);
    expect(map.size).toBe(kept);
  });
});
