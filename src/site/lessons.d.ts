declare module 'reedway:lessons' {
  import type { MDXInstance } from 'astro';

  /** By lesson id; each loads the lesson's MDX. */
  export const lessonModules: Readonly<
    Record<string, () => Promise<{ readonly default: MDXInstance<Record<string, unknown>>['default'] }>>
  >;
}
