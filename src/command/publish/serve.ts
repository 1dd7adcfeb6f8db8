/** `reedway serve`: the author's loop. */
import { loadCourse } from '../../course/load.ts';
import { openCourseCache } from '../../publish/engraving/course-cache.ts';
import { engraverWith } from '../../publish/engraving/engrave.ts';

import { serve } from '../../publish/serve.ts';
import type { Command } from '../command.ts';
import { COURSE_ARGUMENT, closing, courseFolder, problemReport } from '../course/check.ts';
import { PORT, readPort } from './port.ts';
import { untilStopped } from './stop.ts';

export const command: Command = {
  arguments: [COURSE_ARGUMENT],
  options: {
    port: {
      type: 'string',
      value: 'NUMBER',
      about: `The port to serve on, or the next that is free; ${PORT} if none is named.`,
    },
  },
  about:
    'Shows the course as its students will see it, drafts included, and again whenever a file of it changes. What is wrong is shown on the page and here. It continues until it is stopped with Ctrl-C.',
  async run({ arguments: [typed], options }, terminal) {
    const port = readPort(options['port']);
    const dir = courseFolder(typed, terminal);
    const cache = openCourseCache(dir);
    let last = '';
    try {
      const { address, stop } = await serve({
        dir,
        port,
        engraver: engraverWith(cache),
        read: (previous) => loadCourse(dir, previous),
        heard(course) {
          const news = `${problemReport(course, terminal.cwd)}${closing(course)}\n`;
          if (news !== last) terminal.err(news);
          last = news;
        },
      });
      terminal.out(`${address}\n`);
      await untilStopped();
      // A page held open somewhere is no reason to stay.
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
