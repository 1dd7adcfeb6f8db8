import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { JSDOM } from 'jsdom';
import { beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { buildInto } from '../../src/publish/build.ts';
import { engraverWith } from '../../src/publish/engraving/engrave.ts';
import { NO_RECORD_STORE } from '../../src/publish/engraving/record-store.ts';
import { MANIFEST } from '../../src/publish/output/manifest.ts';
import { courseOf, folderOf, lesson, write } from '../course/some-course.ts';
import { LONG } from '../setup/long.ts';
import { filesBelow, reedway } from './some-site.ts';

const FILES = {
  'course.yaml': [
    'title: Porch <harp>',
    'teacher: Odile Marrow',
    'summary: From one note to a chorus.',
    'licence: Words & tunes by the invented school.',
    'stages:',
    '  - { id: start, title: First breaths }',
    '  - { id: blues, title: The blues }',
    '',
  ].join('\n'),
  'lessons/first.mdx': lesson(
    'Some *words*, and [the next](second#lick), [its end](second?bars=11-12&tempo=60%#lick).\n\n## Play\n\n```tab\ntitle: <b>One</b> & two\nslot: 1/4\n4 -4 5 -5\n```\n\n![A harp](media/harp.svg)\n',
    'title: One </script> note\nsummary: "Quotes: \\"here\\""\nstage: start\nminutes: 10',
  ),
  'lessons/second.mdx': lesson(
    '```tab\nid: lick\nharp: A\nposition: 2\nform: twelve-bar\nphrase riff: -2 3 -3\' -3 4 5 -4 4\n<riff> | <riff> | <riff> | <riff> | <riff> | <riff> | <riff> | <riff> | <riff> | <riff> | <riff> | <riff>\n```\n\n<BendLadder hole="3" />\n',
    'title: Second\nstage: blues\nrequires: first\nharp: A\nposition: 2\ntempo: 92\nfeel: shuffle',
  ),
  'lessons/half-done.mdx': lesson('Not yet.\n', 'title: Half done\nrequires: second\ndraft: true'),
  'media/harp.svg': '<svg xmlns="http://www.w3.org/2000/svg"/>',
  'public/robots.txt': 'User-agent: *\n',
  'public/.well-known/security.txt': 'Contact: mailto:someone@example.org\n',
  'public/lessons/first/index.html': 'no lesson',
};

describe('a course that is right', () => {
  const options = ['--site', 'https://school.example/porch/'];
  let dir: string;
  let site: string;
  let files: ReadonlyMap<string, Buffer>;
  const pages = new Map<string, Document>();
  const parse = (page: string): Document => {
    const document = pages.get(page);
    if (!document) throw new Error(`${page} was not built`);
    return document;
  };
  beforeAll(async () => {
    dir = courseOf(FILES);
    site = join(folderOf({}), 'site');
    const ran = await reedway(['build', dir, '--out', site, ...options]);
    expect(ran).toEqual({
      code: 0,
      err: '',
      out: expect.stringMatching(/^3 lessons, 2 blocks: nothing wrong\. The site is in /),
    });
    files = filesBelow(site);
    for (const [name, bytes] of files)
      if (name.endsWith('.html')) pages.set(name, new JSDOM(bytes.toString()).window.document);
  });

  test('has nothing of what an author sees at work: no script that follows the course, and no list of problems', () => {
    const ofAuthor = /reedway[:-](?:read-again|shown|problems)|problems-(?:bar|list)|browser\/authoring/;
    expect([...files].filter(([, bytes]) => ofAuthor.test(bytes.toString())).map(([name]) => name)).toEqual([]);
  });

  test('becomes a site with a page for each lesson but drafts, its media, and what lies in its public folder', () => {
    const names = [...files.keys()];
    expect(names).toEqual(
      expect.arrayContaining([
        'index.html',
        '404.html',
        'guide/index.html',
        'lessons/first/index.html',
        'lessons/second/index.html',
      ]),
    );
    expect(names).toEqual(
      expect.arrayContaining([MANIFEST, 'media/harp.svg', 'robots.txt', '.well-known/security.txt', 'licences.txt']),
    );
    expect(names.filter((file) => /half-done/.test(file))).toEqual([]);
    expect(readFileSync(join(site, 'index.html'), 'utf8')).not.toMatch('Half done');
  });

  test('has every address under its base, and each leads somewhere', () => {
    for (const [name, document] of pages) {
      for (const node of document.querySelectorAll('[href], [src]')) {
        const address = node.getAttribute('href') ?? node.getAttribute('src') ?? '';
        if (/^(https?:|mailto:)/.test(address)) continue;
        if (address.startsWith('#')) {
          expect(document.getElementById(decodeURIComponent(address.slice(1))), `${name}: ${address}`).not.toBeNull();
          continue;
        }
        expect(address, name).toMatch(/^\/porch\//);
        const [path = '', place] = address
          .slice('/porch/'.length)
          .replace(/\?[^#]*/, '')
          .split('#');
        const file = decodeURIComponent(path === '' || path.endsWith('/') ? `${path}index.html` : path);
        expect(files.has(file), `${name}: ${address}`).toBe(true);
        if (place) expect(parse(file).getElementById(decodeURIComponent(place)), `${name}: ${address}`).not.toBeNull();
      }
    }
  });

  test('has links to bars with what they ask for', () => {
    const links = [...parse('lessons/first/index.html').querySelectorAll('main a')].map((a) => a.getAttribute('href'));
    expect(links).toContain('/porch/lessons/second/?bars=11-12&tempo=60%25#block-lick');
  });

  test('says on each page what it is, for machines as well', () => {
    const document = parse('lessons/first/index.html');
    const content = (selector: string) => document.querySelector(selector)?.getAttribute('content');
    expect(document.title).toBe('One </script> note · Porch <harp>');
    expect(content('meta[name=description]')).toBe('Quotes: "here"');
    expect(document.querySelector('link[rel=canonical]')?.getAttribute('href')).toBe(
      'https://school.example/porch/lessons/first/',
    );
    expect(content('meta[property="og:url"]')).toBe('https://school.example/porch/lessons/first/');
    expect(content('meta[property="og:image"]')).toMatch(/^https:\/\/school\.example\/porch\/made\/card/);
    const about = JSON.parse(document.querySelector('script[type="application/ld+json"]')?.textContent ?? '');
    expect(about).toMatchObject({
      '@type': 'LearningResource',
      name: 'One </script> note',
      position: 1,
      timeRequired: 'PT10M',
      isPartOf: { '@type': 'Course', name: 'Porch <harp>', url: 'https://school.example/porch/' },
    });
    const course = JSON.parse(
      parse('index.html').querySelector('script[type="application/ld+json"]')?.textContent ?? '',
    );
    expect(course).toMatchObject({ '@type': 'Course', author: { name: 'Odile Marrow' } });
    expect(course.hasPart.map(({ name }: { name: string }) => name)).toEqual(['One </script> note', 'Second']);
  });

  test('shows text of blocks and titles as text, whatever is in it', () => {
    const document = parse('lessons/first/index.html');
    expect(document.querySelector('harp, b')).toBeNull();
    expect(document.querySelector('h1')?.textContent).toBe('One </script> note');
    expect(document.querySelector('#block-0 [role=group]')?.getAttribute('aria-label')).toMatch(/^<b>One<\/b> & two/);
  });

  test('holds to its own policy: no style attributes, nothing inline but what the policy names', () => {
    for (const [name, document] of pages) {
      expect(document.querySelector('meta[http-equiv="content-security-policy" i]'), name).not.toBeNull();
      expect(
        [...document.querySelectorAll('[style], style')].map((node) => node.outerHTML.slice(0, 80)),
        name,
      ).toEqual([]);
      const handlers = [...document.querySelectorAll('*')].flatMap((node) =>
        node.getAttributeNames().filter((attribute) => /^on/.test(attribute)),
      );
      expect(handlers, name).toEqual([]);
    }
  });

  test('has the title of a block above it, as text', () => {
    const figure = parse('lessons/first/index.html').querySelector('.block-figure');
    expect(figure?.firstElementChild?.outerHTML).toBe(
      '<figcaption class="block-title">&lt;b&gt;One&lt;/b&gt; &amp; two</figcaption>',
    );
    expect(parse('lessons/second/index.html').querySelector('.block-title')).toBeNull();
  });

  test('has every name of a page only once', () => {
    for (const [name, document] of pages) {
      const ids = [...document.querySelectorAll('[id]')].map((node) => node.id);
      expect(
        ids.filter((id, index) => ids.indexOf(id) !== index),
        name,
      ).toEqual([]);
    }
  });

  /** On Linux there is one in memory. */
  const onAnotherDisk = (): string => {
    if (!existsSync('/dev/shm')) return folderOf({});
    const folder = mkdtempSync('/dev/shm/reedway-');
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    return folder;
  };

  test.runIf(LONG)(
    'is the same byte for byte when it is built again, and on another disk from nothing kept, by two builds at once',
    async () => {
      const [again, elsewhere] = [folderOf({}), onAnotherDisk()];
      const both = await Promise.all([
        reedway(['build', dir, '--out', join(again, 'site'), ...options]),
        reedway(['build', '.', '--out', join(elsewhere, 'site'), ...options], courseOf(FILES)),
      ]);
      expect(both.map(({ code, err }) => [code, err])).toEqual([
        [0, ''],
        [0, ''],
      ]);
      expect(filesBelow(join(again, 'site'))).toEqual(files);
      expect(filesBelow(join(elsewhere, 'site'))).toEqual(files);
    },
  );

  test.runIf(LONG)('can be built again by the same process once it was changed', async () => {
    const folder = folderOf({});
    const built = async (course: string, out: string): Promise<string> => {
      const to = join(folder, out);
      mkdirSync(to);
      const standing = { base: '/', origin: undefined, authoring: false };
      await buildInto(to, loadCourse(course), engraverWith(NO_RECORD_STORE), standing);
      return readFileSync(join(to, 'lessons/first/index.html'), 'utf8');
    };
    const course = courseOf();
    expect(await built(course, 'one')).toMatch('Hello.');
    write(course, 'lessons/first.mdx', lesson('Changed.\n'));
    expect(await built(course, 'two')).toMatch('Changed.');
  });
});
