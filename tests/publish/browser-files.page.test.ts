/** Files that only a browser can make. */
import { expect, test } from 'vitest';
import { startBrowser } from '../../src/publish/browser-files.ts';

test('a picture tells classes apart that differ only in case', async () => {
  const browser = await startBrowser();
  try {
    const picture = (style: string) =>
      browser.png(
        `<svg xmlns="http://www.w3.org/2000/svg" width="8" height="8"><style>.y{fill:#000000}${style}</style><rect class="y" width="8" height="8"/></svg>`,
      );
    const plain = await picture('');
    expect(await picture('.Y{fill:#ff0000}')).toEqual(plain);
    expect(await picture('.y{fill:#ff0000}')).not.toEqual(plain);
  } finally {
    await browser.close();
  }
});
