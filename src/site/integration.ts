/** Joins Reedway to Astro: the lessons as modules pages can import, their blocks and links made ready, media served. */
import type { AstroIntegration } from 'astro';
import { lessonPlugin } from './lesson-plugin.ts';
import { lessonModules } from './lesson-modules.ts';
import { lessonLinks } from './links.ts';

export const reedway = (): AstroIntegration => ({
  name: 'reedway',
  hooks: {
    'astro:config:setup': ({ config, updateConfig }) => {
      const { processor } = config.markdown;
      if (processor?.name !== 'satteri') throw new Error(`Astro's Markdown processor is ${processor?.name}, not the one our plugin is for.`);
      (processor as Satteri).options.mdastPlugins.push(lessonPlugin(lessonLinks()));
      updateConfig({ vite: { plugins: [lessonModules()] } });
    },
  },
});
