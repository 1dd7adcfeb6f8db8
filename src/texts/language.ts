/** The language of the tables of texts, as a BCP 47 tag: it decides number forms and how lists are joined. */
export const LANGUAGE = 'en-GB';
