/** The name a technique goes by on a page. */
export const techniqueTitle = (id: string): string => id.replaceAll('-', ' ');
