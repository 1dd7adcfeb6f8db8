/**
 * A page with engraved blocks and their players, as a lesson has them, without the rest of the site; what a page of the site
 * may not do, it may not do either.
 */
import { readFileSync } from 'node:fs';
import { build } from 'esbuild';
import { engraveBlock, glyphSheet } from '../../../src/engrave/block.ts';
import { readBlock } from '../../../src/notation/read.ts';
import { playedPhrases } from '../../../src/score/phrases.ts';
import { playbackOf } from '../../../src/score/playback-of.ts';
import { POLICY } from '../../../src/site/policy.ts';

const read = (path: string): string => readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8');

export type Files = Record<string, { type: string; body: string }>;

/** The scripts of the page, split as the site splits them: what loads at once, and what loads when sound is asked for. */
export async function scripts(...entries: readonly string[]): Promise<Files> {
  const built = await build({
    entryPoints: entries.map((entry) => new URL(`../../../${entry}`, import.meta.url).pathname),
    bundle: true,
    splitting: true,
    minify: true,
    format: 'esm',
    target: 'es2022',
    outdir: '/',
    entryNames: '[name]',
    chunkNames: 'chunk-[hash]',
    write: false,
  });
  return Object.fromEntries(built.outputFiles.map(({ path, text }) => [path, { type: 'text/javascript', body: text }]));
}

const STYLES = [
  'src/site/styles/ground.css',
  'src/site/styles/page.css',
  'src/engrave/block.css',
  'src/engrave/grid.css',
  'src/engrave/grid-sizes.css',
  'src/site/styles/controls.css',
  'src/site/styles/player/player.css',
  'src/site/styles/player/bar.css',
  'src/site/styles/player/large-type.css',
];

export async function lessonPage(blocks: readonly string[]): Promise<Files> {
  const glyphs = new Set<string>();
  const figures = blocks.map((text, index) => {
    const { score, diagnostics } = readBlock(text);
    if (!score) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
    const engraved = engraveBlock(score, { id: `b${index}` });
    for (const glyph of engraved.glyphs) glyphs.add(glyph);
    const playback = JSON.stringify({ ...playbackOf(score), ...playedPhrases(score) }).replaceAll('<', '\\u003c');
    return `<figure id="block-${index}" data-block="${index}"><reedway-player><div class="player-head"><button type="button">Hear it</button></div><script type="application/json">${playback}</script></reedway-player>${engraved.html}</figure>`;
  });
  const body = `<!doctype html><html lang="en"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Blocks</title>
<meta http-equiv="content-security-policy" content="${POLICY}">
<link rel="stylesheet" href="/styles.css">
<main class="page"><h1>Blocks</h1>${glyphSheet(glyphs)}${figures.join('<p>Between two blocks is some text.</p>')}</main>
<script type="module" src="/element.js"></script></html>`;
  const styles = `${STYLES.map(read).join('\n')}\nfigure[data-block] { margin: 0; }`;
  return {
    '/': { type: 'text/html; charset=utf-8', body },
    '/styles.css': { type: 'text/css', body: styles },
    ...(await scripts('src/browser/player/element.ts')),
  };
}
