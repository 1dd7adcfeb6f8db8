/**
 * The three engines that students’ browsers are built on, driven in one way: Chromium, Firefox and WebKitGTK. What a test does is said in
 * student.ts by roles and names; an engine knows only how to open a page, run a function in it, and press at a point.
 */

/** A window with one page. */
export interface EnginePage {
  readonly goto: (address: string) => Promise<void>;
  /** Runs a function in the page. It sees only its argument; argument and result are sent as JSON. */
  readonly run: <Result, Argument = undefined>(
    script: (argument: Argument) => Result | Promise<Result>,
    argument?: Argument,
  ) => Promise<Result>;
  /** Presses the main button of the mouse, as a person does: the page may sound after it. Pixels of the window. */
  readonly pressAt: (x: number, y: number) => Promise<void>;
  /** Pixels of the page. WebKitGTK has no window narrower than 447. */
  readonly resize: (width: number, height: number) => Promise<void>;
  /** A PNG of what the window shows. */
  readonly picture: () => Promise<Buffer>;
  /** Errors of scripts and of the console since the window was opened. */
  readonly errors: readonly string[];
}

/** A browser that runs. */
export interface OpenEngine {
  readonly page: EnginePage;
  readonly close: () => Promise<void>;
}

/** Whether pages are by day or by night. */
export interface EngineOptions {
  readonly dark?: boolean;
  /** The environment of the browser: where its sound goes. */
  readonly env?: Readonly<Record<string, string>>;
}

export type OpenAnEngine = (options?: EngineOptions) => Promise<OpenEngine>;

/** Pixels of a new window. */
export const WINDOW = { width: 1100, height: 900 };
