// Starts the real program on a copy of a project in a folder of its own. Not here: the browser.

import { spawn } from "node:child_process";
import { copyFile, mkdtemp, readFile, rename, rm, writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), "..", "..", "..");
export const DEMO = join(ROOT, "examples", "dark-sky.toml");
const PROGRAM = process.env.WAINWRIGHT ?? join(ROOT, "target", "debug", "wainwright");
const START_WITHIN_MS = 20_000;

/** The program, serving one project file. */
export class App {
  /** Starts on a copy of `source`, or on the text `text`. */
  static async start({ source = DEMO, text } = {}) {
    const folder = await mkdtemp(join(tmpdir(), "wainwright-browser-"));
    const file = join(folder, "project.toml");
    if (text === undefined) await copyFile(source, file);
    else await writeFile(file, text);
    const port = await freePort();
    const child = spawn(PROGRAM, [file, "--port", String(port), "--no-browser"], { stdio: ["ignore", "pipe", "pipe"] });
    const app = new App(folder, file, port, child);
    await app.#answers();
    return app;
  }

  constructor(folder, file, port, child) {
    this.folder = folder;
    this.file = file;
    this.origin = `http://127.0.0.1:${port}`;
    this.child = child;
    this.said = "";
    for (const stream of [child.stdout, child.stderr]) stream.on("data", (piece) => (this.said += piece));
    // Without a listener a program that cannot be started would end the test run unexplained.
    child.on("error", (error) => (this.said += `\n${error.message}`));
  }

  /** The project file as it is on the disk now. */
  read() {
    return readFile(this.file, "utf8");
  }

  /** Changes the file as an editor does: a new file is moved over the old one. */
  async editOutside(change) {
    const text = change(await this.read());
    await writeFile(`${this.file}.edited`, text);
    await rename(`${this.file}.edited`, this.file);
    return text;
  }

  /** Waits until the file on the disk satisfies `test`. */
  async fileBecomes(test, within = 10_000) {
    const until = Date.now() + within;
    for (;;) {
      const text = await this.read();
      if (test(text)) return text;
      if (Date.now() > until) throw new Error(`the file never became what was expected; it ends with:\n${text.slice(-300)}`);
      await pause(50);
    }
  }

  async stop() {
    if (this.child.exitCode === null && this.child.pid) {
      const gone = new Promise((done) => this.child.once("exit", done));
      this.child.kill("SIGKILL");
      await gone;
    }
    await rm(this.folder, { recursive: true, force: true });
  }

  async #answers() {
    const until = Date.now() + START_WITHIN_MS;
    while (Date.now() < until && this.child.exitCode === null) {
      try {
        const answer = await fetch(this.origin);
        if (answer.ok) return;
      } catch {
        // It does not listen yet.
      }
      await pause(50);
    }
    const said = this.said;
    await this.stop();
    throw new Error(`the program did not answer on ${this.origin}; it said:\n${said}`);
  }
}

function freePort() {
  return new Promise((done, failed) => {
    const server = createServer();
    server.on("error", failed);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => done(port));
    });
  });
}
