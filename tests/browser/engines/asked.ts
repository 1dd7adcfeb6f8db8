/**
 * Whether what is not steady yet is run too: `REEDWAY_ENGINES=all`. WebKitGTK stops answering on pages with a recording on some machines, and
 * the recording of Firefox's sound needs one that is quiet.
 */
export const ALL_ENGINES = process.env['REEDWAY_ENGINES'] === 'all';
