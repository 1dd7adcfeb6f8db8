// For Astro's own tools (its type checker and editors). Courses are built and served by src/command.
import { astroConfig } from './src/publish/astro-config.ts';

export default astroConfig({ base: '/', origin: undefined, cacheDir: './node_modules/.astro' });
