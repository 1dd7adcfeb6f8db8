/** What ties the pages of the authoring server to it. */

/** The address of the script that follows the course, as the bundler's server has it. */
export const AUTHORING_SCRIPT = '/src/browser/authoring/start.ts';

/** What the server sends to pages when it has read the course again. The script has the same name for it. */
export const READ_AGAIN = 'reedway:read-again';
