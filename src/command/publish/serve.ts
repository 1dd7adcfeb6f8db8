/** `reedway serve`: the author's loop. */
import { resolve } from 'node:path';
import { loadCourse } from '../../course/load.ts';
import { openCourseCache } from '../../publish/engraving/course-cache.ts';
import { engraverWith } from '../../publish/engraving/engrave.ts';
import { recoverOutput } from '../../publish/output/swap.ts';
import { serve } from '../../publish/serve.ts';
import type { Command } from '../command.ts';
import { COURSE_ARGUMENT, closing, courseFolder, problemReport } from '../course/check.ts';
import { OUT } from './build.ts';
import { PORT, readPort } from './port.ts';
import { untilStopped } from './stop.ts';

export const command: Command = {
  arguments: [COURSE_ARGUMENT],
  options: {
    port: {
      type: 'string',
      value: 'NUMBER',
      about: `The port, or the next one that is free. Default: ${PORT}.`,
    },
  },
  about:
    'Shows the course as students will see it, with drafts, and updates it whenever a file changes. Problems are shown on the page and in the terminal. Stop it with Ctrl-C.',
  async run({ arguments: [typed], options }, terminal) {
    const port = readPort(options['port']);
    const dir = courseFolder(typed, terminal);
    // A build that was killed may have left no site where host looks for it.
    await recoverOutput(resolve(terminal.cwd, OUT)).catch(() => undefined);
    const cache = openCourseCache(dir);
    let last = '';
    try {
      const { address, stop } = await serve({
        dir,
        port,
        engraver: engraverWith(cache),
        read: (previous) => loadCourse(dir, previous),
        onRead(course) {
          const report = `${problemReport(course, terminal.cwd)}${closing(course)}\n`;
          if (report !== last) terminal.err(report);
          last = report;
        },
      });
      terminal.out(`${address}\n`);
      await untilStopped();
      // An open page must not keep the process alive.
      await Promise.race([stop(), new Promise((resolve) => setTimeout(resolve, 1000).unref())]);
      return 0;
    } catch (error) {
      terminal.err(`The course cannot be served: ${error instanceof Error ? error.message : String(error)}\n`);
      return 1;
    } finally {
      cache.close();
    }
  },
};
