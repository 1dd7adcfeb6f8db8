/** Astro's settings for a course: all of them, so that building and serving differ only in what has to differ. */
import { fileURLToPath } from 'node:url';
import mdx from '@astrojs/mdx';
import type { AstroInlineConfig } from 'astro';
import { reedway } from './integration.ts';

export interface SiteSettings {
  readonly base: string;
  readonly origin: URL | undefined;
  /** A folder of its own for what Astro and Vite keep between runs. */
  readonly cacheDir: string;
  /** Files copied to the site as they are, or undefined for none. */
  readonly publicDir: string | undefined;
}

/** The folder of this package: where Astro finds pages, components and the libraries they use. */
export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export function siteConfig({ base, origin, cacheDir, publicDir }: SiteSettings): AstroInlineConfig {
  return {
    configFile: false,
    root: ROOT,
    srcDir: './src/site',
    base,
    ...(origin ? { site: origin.href } : {}),
    cacheDir,
    publicDir: publicDir ?? './src/site/no-public',
    trailingSlash: 'always',
    compressHTML: true,
    // A page names its scripts and styles; the policy it carries (policy.ts) allows nothing inline.
    build: { format: 'directory', inlineStylesheets: 'never', assets: 'made' },
    markdown: { syntaxHighlight: false },
    integrations: [reedway(), mdx()],
    devToolbar: { enabled: false },
    logLevel: 'warn',
    vite: {
      logLevel: 'warn',
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
