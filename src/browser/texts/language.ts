/** The language of the texts of scripts, as a BCP 47 tag. */
export const LANGUAGE = 'en';
