/** `reedway build`: a course becomes a site, whole or not at all. */
import { join, resolve } from 'node:path';
import { getSystemErrorName, stripVTControlCharacters } from 'node:util';
import { type Course, isPublishable } from '../../course/course.ts';
import { errorCode } from '../../course/files.ts';
import { COURSE_FOLDERS } from '../../course/folder.ts';
import { fieldOf } from '../../document/unknown.ts';
import type { RecordStore } from '../../publish/engraving/record-store.ts';
import { type Claim, claimOutput, isRefusal, type Refusal, unusable } from '../../publish/output/claim.ts';
import { normalBase } from '../../site/addresses.ts';
import {
  type Command,
  type Input,
  QUIET_OPTION,
  quietTerminal,
  type Terminal,
  textOption,
  UsageError,
} from '../command.ts';
import { COURSE_ARGUMENT, closing, courseFolder, problemReport, readCourse } from '../course/check.ts';
import { shownPath } from '../terminal/shown-path.ts';

/** Where a site is put and looked for if nobody says. */
export const OUT = 'dist';

export const command: Command = {
  arguments: [COURSE_ARGUMENT],
  options: {
    out: { type: 'string', value: 'DIR', completes: 'folder', about: `The output folder. Default: ${OUT}.` },
    base: {
      type: 'string',
      value: 'PATH',
      about: 'The path of the site on its server, such as /course.',
    },
    site: {
      type: 'string',
      value: 'URL',
      about: 'The address of the site on the web, for absolute links. Default: the url of course.yaml.',
    },
    strict: { type: 'boolean', about: 'Count warnings as errors.' },
    quiet: QUIET_OPTION,
  },
  about:
    'Checks the whole course. If it has no errors, builds the site next to the output folder and moves it there in one step. If anything fails, the previous site stays unchanged. An output folder that contains other files is never overwritten.',
  async run({ arguments: [dir], options }, shown) {
    const terminal = quietTerminal(shown, options);
    const { openCourseCache } = await import('../../publish/engraving/course-cache.ts');
    const cache = openCourseCache(courseFolder(dir, terminal));
    try {
      return await build(
        readCourse(dir, terminal, { strict: options['strict'] === true, keep: cache }),
        cache,
        options,
        terminal,
      );
    } finally {
      cache.close();
    }
  },
};

async function build(
  course: Course,
  cache: RecordStore,
  options: Input['options'],
  terminal: Terminal,
): Promise<number> {
  const { base, origin } = standingOf(options, course);
  if (course.problems.length > 0) terminal.err(problemReport(course, terminal.cwd));
  if (!isPublishable(course)) {
    terminal.err(`${options['quiet'] ? '' : `${closing(course)} `}Nothing was built.\n`);
    return 1;
  }
  const claim = await claimOutput(
    resolve(terminal.cwd, textOption(options, 'out') ?? OUT),
    COURSE_FOLDERS.map((part) => join(course.dir, part)),
  );
  if (isRefusal(claim)) return refused(claim, terminal);
  const stopped = stopOn(claim);
  try {
    const refusal = (await buildTo(claim, course, cache, base, origin, terminal)) ?? (await claim.publish(base));
    if (refusal) return refused(refusal, terminal);
  } finally {
    stopped();
    terminal.progress('');
    await claim.release();
  }
  if (!options['quiet']) terminal.out(`${closing(course)} The site is in ${shownPath(claim.target, terminal.cwd)}.\n`);
  return 0;
}

async function buildTo(
  claim: Claim,
  course: Course,
  cache: RecordStore,
  base: string,
  origin: URL | undefined,
  terminal: Terminal,
): Promise<Refusal | undefined> {
  const [{ buildInto }, { engraverAhead }] = await Promise.all([
    import('../../publish/build.ts'),
    import('../../publish/engraving/ahead.ts'),
  ]);
  const { engraver, stop } = engraverAhead(course, cache, (done) => terminal.progress(`${done} blocks set`));
  try {
    terminal.progress('Reading the pages');
    await buildInto(claim.staging, course, engraver, { base, origin, authoring: false });
    return undefined;
  } catch (error) {
    const code = diskFaultOf(error);
    if (code !== undefined) return unusable(claim.target, code);
    return { refused: `The site could not be built. ${wordsOf(error)}` };
  } finally {
    await stop();
  }
}

/** The system's code of a disk error, from Node's own errors or from the text of the bundler's. */
function diskFaultOf(error: unknown): string | undefined {
  const code = errorCode(error);
  if (code !== undefined && /^E[A-Z]+$/.test(code)) return code;
  const number = error instanceof Error ? /\(os error (\d+)\)/.exec(error.message)?.[1] : undefined;
  return number === undefined ? undefined : getSystemErrorName(-Number(number));
}

/** What a fault in the making says. Astro's and Vite's come with colours and with the file they are about. */
function wordsOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const [id, hint] = [fieldOf(error, 'id'), fieldOf(error, 'hint')];
  const about = typeof id === 'string' ? `\n  in ${id}` : '';
  return stripVTControlCharacters(`${error.message}${about}${typeof hint === 'string' ? `\n  ${hint}` : ''}`);
}

function refused({ refused: why, help }: Refusal, terminal: Terminal): number {
  terminal.err(`${why}\n${help === undefined ? '' : `${help}\n`}`);
  return 1;
}

/** Gives the folder back when the author stops the build. */
function stopOn(claim: Claim): () => void {
  const stop = (): void => {
    claim.release().finally(() => process.exit(130));
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
  return () => {
    process.off('SIGINT', stop);
    process.off('SIGTERM', stop);
  };
}

/** Where the site will be. The path of its address is its base, unless another one is named. */
function standingOf(options: Input['options'], course: Course): { base: string; origin: URL | undefined } {
  const site = textOption(options, 'site') ?? course.file.url;
  const origin = site === undefined ? undefined : URL.parse(site);
  if (origin === null || (origin && !/^https?:$/.test(origin.protocol))) {
    throw new UsageError(`--site is a web address that begins with https://, not ${site}.`);
  }
  const base = textOption(options, 'base') ?? origin?.pathname ?? '/';
  if (!/^[\w.~/-]*$/.test(base) || /(^|\/)\.{1,2}(\/|$)/.test(base)) {
    throw new UsageError(`--base is a path of letters, digits, hyphens and slashes, such as /course, not ${base}.`);
  }
  return { base: normalBase(base), origin };
}
