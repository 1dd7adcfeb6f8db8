/** Text of an author’s as a message may repeat it: not at any length. */
export const excerpt = (written: string): string => (written.length > 60 ? `${written.slice(0, 60)}…` : written);
