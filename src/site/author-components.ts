/** What an author may write in a lesson: every component of the components folder, by its file's name. */
type Component = (props: Record<string, unknown>) => unknown;

const modules = import.meta.glob<{ readonly default: Component }>('../../components/*.astro', { eager: true });

/** The components an author may use, by name: every file of `components/`. */
export const authorComponents: Readonly<Record<string, Component>> = Object.fromEntries(
  Object.entries(modules).map(([file, { default: component }]) => [file.replace(/^.*\/|\.astro$/g, ''), component]),
);
