/** Gives the reader a file, as if it had been downloaded. */

/** Time for the browser to take the file over. */
const KEPT = 60_000;

/** Offers a file under a name. */
export function offerFile(name: string, content: Blob): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), KEPT);
}
