import { type Fault, LARGEST_TEXT, parseText, type Plan } from "../plan/index.ts";
import { planText } from "../exchange/planfile.ts";
import { blankPlan } from "./blank.ts";
import type { Core } from "./core.ts";
import { emptyHistory } from "./history.ts";

/** A file as the browser hands it over. */
interface TextFile {
  readonly name: string;
  /** Bytes. */
  readonly size: number;
  text(): Promise<string>;
}

/**
 * Commands that bring a plan in and out. What is refused leaves the open plan as it was and all its faults in
 * `refusal`; what is opened is a plan of its own on the shelf, and the one that was open stays there.
 */
export interface FileCommands {
  /** True when the text was a plan and is open now, at once. */
  open(text: string, name?: string): boolean;
  /** As `open`, when the plan has been made ready; a file too large is refused unread. */
  openFile(file: TextFile): Promise<boolean>;
  /** Opens a ready plan by name. */
  openReady(name: string): Promise<boolean>;
  newPlan(): void;
  /** The open plan as a file's text. */
  saveText(): string;
  /** The name its file should have. */
  fileName(): string;
  /** The planner has read the refusal. */
  dismissRefusal(): void;
}

/** `openSame` opens the plan of the shelf that is the same as a given one, and says whether there is one. */
export function fileCommands(core: Core, openSame: (plan: Plan) => Promise<boolean>): FileCommands {
  const { state, ports } = core;

  const refuse = (name: string, faults: readonly Fault[]): false => {
    state.setState({ refusal: { name, faults } });
    return false;
  };
  const put = (plan: Plan): void => core.lay(plan, emptyHistory, ports.newId());
  /** As `open`; a plan that lies on the shelf as it is here is not put there twice. */
  const openOnce = async (text: string, name: string): Promise<boolean> => {
    const read = parseText(text);
    if (!read.ok) return refuse(name, read.error);
    if (await openSame(read.value)) state.setState({ refusal: null });
    else if (await core.makeReady(read.value)) put(read.value);
    else return false;
    return true;
  };

  return {
    open(text, name = "The file") {
      const read = parseText(text);
      if (!read.ok) return refuse(name, read.error);
      put(read.value);
      return true;
    },
    async openFile(file) {
      // A character takes at least one byte, so a text within the limit may still be a file above it.
      if (file.size > 4 * LARGEST_TEXT) {
        const megabytes = Math.ceil(file.size / 1024 / 1024);
        const most = LARGEST_TEXT / 1024 / 1024;
        const message = `the file is too large: ${megabytes} MB, at most ${most} MB are read`;
        return refuse(file.name, [{ path: "", message }]);
      }
      let text: string;
      try {
        text = await file.text();
      } catch (error) {
        return refuse(file.name, [{ path: "", message: `the file cannot be read: ${wordsOf(error)}` }]);
      }
      return openOnce(text, file.name);
    },
    async openReady(name) {
      let text: string;
      try {
        text = await ports.readyText(name);
      } catch (error) {
        return refuse(name, [{ path: "", message: `the ready plan cannot be had: ${wordsOf(error)}` }]);
      }
      return openOnce(text, name);
    },
    newPlan() {
      put(blankPlan(ports.clock.nowMs()));
    },
    saveText: () => planText(state.getState().plan),
    fileName: () => fileNameOf(state.getState().plan.title),
    dismissRefusal: () => state.setState({ refusal: null }),
  };
}

export { planText };

/** The name of the file of a plan with this title. */
export function fileNameOf(title: string): string {
  const words = title.toLowerCase().normalize("NFKD");
  const plain = words.replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "");
  return `${plain === "" ? "plan" : plain}.json`;
}

/** What went wrong, in words, of anything thrown. */
export function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : "unknown";
}
