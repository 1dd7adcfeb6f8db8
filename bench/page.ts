/**
 * What a page weighs on its way to the student: lesson pages of six blocks as they lie in a built site, each file
 * compressed by itself as servers do, and what is fetched later and only when asked for.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { itemAt, lastOf, present } from '../src/values/checked.ts';
import { withoutTraces } from './building.ts';
import { writeCourse } from './course.ts';
import { inFolder } from './folder.ts';
import { runNode } from './measure.ts';
import { atMost, kilobytes, row, type Section } from './table.ts';

const LESSONS = 24;
const BLOCKS = 6;
const AIM = { page: 60, sound: 25, engraver: 130 };
const KB = 1024;

const weight = (content: string | Buffer): number => gzipSync(content).length;

interface Page {
  readonly html: number;
  /** What the page would be lighter by without its sheet of outlines. */
  readonly outlines: number;
  readonly styles: number;
  readonly scripts: number;
  readonly whole: number;
}

export const pageWeight = (): Promise<Section> =>
  inFolder(async (folder) => {
    const [course, site] = [join(folder, 'course'), join(folder, 'site')];
    writeCourse(course, { lessons: LESSONS, blocks: BLOCKS });
    await withoutTraces(async () => {
      await runNode('src/command/reedway.ts', 'build', course, '--out', site);
    });
    const lessons = readdirSync(join(site, 'lessons'));
    const pages = lessons.map((name) => pageOf(site, join(site, 'lessons', name, 'index.html')));
    pages.sort((a, b) => a.whole - b.whole);
    const [median, heaviest] = [itemAt(pages, pages.length >> 1), lastOf(pages)];
    const made = scriptsIn(site);
    const first = made.closure(made.named(/^[A-Z]\w+\.astro/));
    const added = (names: readonly string[], under: ReadonlySet<string>): number =>
      [...made.closure(names)].filter((name) => !under.has(name)).reduce((sum, name) => sum + made.weight(name), 0);
    return {
      title: 'What a page weighs',
      how: `${lessons.length} pages of ${BLOCKS} blocks and about 600 words; each file compressed with gzip.`,
      rows: [
        atMost(
          'a lesson of six blocks, nothing more needed to read and play it',
          median.whole / KB,
          AIM.page,
          inKilobytes,
        ),
        row('    its text and blocks', kilobytes(median.html - median.outlines)),
        row('    its outlines of clefs, heads, signs', kilobytes(median.outlines)),
        row('    its styles', kilobytes(median.styles)),
        atMost('the heaviest of them', heaviest.whole / KB, AIM.page, inKilobytes),
        row('scripts that come with the page', kilobytes(median.scripts)),
        atMost('what hearing it fetches', added(made.named(/^player\./), first) / KB, AIM.sound, inKilobytes),
        atMost(
          'what another harp fetches',
          added(
            [...made.named(/^redraw\./), ...made.named(/^worker-/), ...made.named(/^(block|draw|figure)-/)],
            first,
          ) / KB,
          AIM.engraver,
          inKilobytes,
        ),
      ],
    };
  });

const inKilobytes = (value: number): string => kilobytes(value * KB);

/** Weighs a page with the styles it names; its scripts are weighed apart. */
function pageOf(site: string, file: string): Page {
  const html = readFileSync(file, 'utf8');
  const [sheet = ''] = /<svg class="sheet"[^>]*aria-hidden[\s\S]*?<\/svg>/.exec(html) ?? [];
  if (sheet === '') throw new Error(`${file} has no outlines.`);
  const named = (pattern: RegExp): number =>
    [...html.matchAll(pattern)].reduce((sum, [, address = '']) => sum + weight(readFileSync(join(site, address))), 0);
  const styles = named(/<link rel="stylesheet" href="([^"]+)"/g);
  const own = weight(html);
  return {
    html: own,
    outlines: own - weight(html.replace(sheet, '')),
    styles,
    scripts: named(/<script type="module" src="([^"]+)"/g),
    whole: own + styles,
  };
}

/** The scripts of a site, and which of them come along with others. */
function scriptsIn(site: string) {
  const folder = join(site, 'made');
  const names = readdirSync(folder).filter((name) => name.endsWith('.js'));
  const read = (name: string): string => readFileSync(join(folder, name), 'utf8');
  const imports = (name: string): string[] =>
    [...read(name).matchAll(/\b(?:from|import)\s*["'`]\.\/([^"'`]+\.js)["'`]/g)].map(([, other]) =>
      present(other, 'the text'),
    );
  return {
    named(pattern: RegExp): string[] {
      const found = names.filter((name) => pattern.test(name));
      if (found.length === 0) throw new Error(`No script is called ${pattern}.`);
      return found;
    },
    weight: (name: string): number => weight(read(name)),
    /** These and everything they import outright. */
    closure(from: readonly string[]): Set<string> {
      const all = new Set(from);
      for (const name of all) for (const other of imports(name)) all.add(other);
      return all;
    },
  };
}

if (import.meta.main) (await import('./table.ts')).print(await pageWeight());
