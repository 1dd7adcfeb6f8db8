/** Where the address of a page or a link on it asks for bars, a tempo or a loop, what answers that is loaded. Other pages load nothing for it. */
if ([location, ...document.links].some(({ search }) => /bars|tempo|loop/.test(search))) void import('./follow.ts');
