/** Astro's settings for a course: all of them, so that building and serving differ only in what has to differ. */
import { satteri } from '@astrojs/markdown-satteri';
import mdx from '@astrojs/mdx';
import type { AstroInlineConfig, AstroUserConfig } from 'astro';
import type { PluginOption } from 'vite';
import { lessonModules } from './lesson-modules.ts';
import { lessonElements, lessonMarkdown } from './lesson-plugin.ts';
import { ROOT } from './root.ts';

/** What of Astro’s settings a command decides. */
export interface SiteSettings {
  readonly base: string;
  readonly origin: URL | undefined;
  /** A folder of its own for what Astro and Vite keep between runs. */
  readonly cacheDir: string;
  /** What a dev server needs besides. */
  readonly plugins?: readonly PluginOption[];
}

/** For a run of our own, which reads no other configuration, and says itself what goes wrong. */
export const siteConfig = (settings: SiteSettings): AstroInlineConfig => ({
  ...astroConfig(settings),
  configFile: false,
  root: ROOT,
  logLevel: 'silent',
});

/** Astro's configuration for a build or the authoring server. */
export function astroConfig({ base, origin, cacheDir, plugins = [] }: SiteSettings): AstroUserConfig {
  return {
    srcDir: './src/site',
    base,
    ...(origin ? { site: origin.href } : {}),
    cacheDir,
    // There is none: files of a course are copied and served by us, who know which belong to it.
    publicDir: './src/site/no-public',
    trailingSlash: 'always',
    compressHTML: true,
    // A page names its scripts and styles; the policy it carries (policy.ts) allows nothing inline.
    // While one page waits for the disk, others are made.
    build: { format: 'directory', inlineStylesheets: 'never', assets: 'made', concurrency: 8 },
    markdown: {
      syntaxHighlight: false,
      // Front matter is read with the course. By default this reader would look for some of its own.
      processor: satteri({
        mdastPlugins: [lessonMarkdown],
        hastPlugins: [lessonElements],
        features: { frontmatter: false },
      }),
    },
    integrations: [mdx()],
    devToolbar: { enabled: false },
    vite: {
      logLevel: 'warn',
      // The engraver's worker loads what it needs piece by piece.
      worker: { format: 'es' },
      plugins: [lessonModules(), ...plugins],
      environments: {
        // Plain names for the code that makes the pages, which lives for one build (see newFolder in build.ts).
        prerender: {
          build: {
            rolldownOptions: {
              output: { entryFileNames: 'prerender-entry.mjs', chunkFileNames: 'chunks/[name].mjs' },
            },
          },
        },
      },
      build: {
        assetsInlineLimit: 0,
        rolldownOptions: {
          onLog(level, log, report) {
            // Each lesson's MDX brings one; it means nothing here.
            if (log.code !== 'MODULE_LEVEL_DIRECTIVE') report(level, log);
          },
        },
      },
    },
  };
}
