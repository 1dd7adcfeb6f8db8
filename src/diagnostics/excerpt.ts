/** An author’s text, shortened so that a message can repeat it. */
export const excerpt = (written: string): string => (written.length > 60 ? `${written.slice(0, 60)}…` : written);
