import { LIMITS } from "../../recalculate/limits";
import type { Answer, Asked, Underway } from "./recalculate-worker";
import type { Progress } from "./varied";

const STOPPED: Answer = { error: "was stopped" };
export const TOO_LONG = `took longer than ${LIMITS.seconds} seconds and was stopped`;

/** The worker that works for the page: one thing at a time, within the time limit of the commands, to be stopped. */
export class Calculating {
  private worker: Worker | undefined;
  private settle: ((answer: Answer) => void) | undefined;

  /** What the worker answers, or why it does not; whatever it was at before is stopped. Each step has its own time. */
  ask(asked: Asked, underway: (progress: Progress) => void): Promise<Answer> {
    this.stop();
    const worker = (this.worker ??= new Worker("recalculate-worker.js"));
    return new Promise((answered) => {
      const timed = () => setTimeout(() => this.end({ error: TOO_LONG }), LIMITS.seconds * 1000);
      let timer = timed();
      this.settle = (answer) => {
        clearTimeout(timer);
        this.settle = undefined;
        answered(answer);
      };
      worker.onmessage = ({ data }: MessageEvent<Answer | Underway>) => {
        if (!("progress" in data)) return this.settle?.(data);
        clearTimeout(timer);
        timer = timed();
        underway(data.progress);
      };
      worker.onerror = (event) => {
        event.preventDefault();
        this.end({
          error: `was given up: the browser ended its calculation${event.message ? ` (${event.message})` : ""}`,
        });
      };
      worker.postMessage(asked);
    });
  }

  /** Ends what is under way; the next question gets a worker of its own. */
  stop(): void {
    if (this.settle !== undefined) this.end(STOPPED);
  }

  private end(answer: Answer): void {
    this.worker?.terminate();
    this.worker = undefined;
    this.settle?.(answer);
  }
}
