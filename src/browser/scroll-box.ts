/**
 * A box whose content scrolls sideways where it is too wide. The page has it in the order of focus, so that a keyboard can scroll it
 * without scripts as well; here it is taken out of that order while there is nothing to scroll.
 */
class ScrollBox extends HTMLElement {
  private readonly sizes = new ResizeObserver(() => this.offerFocus());
  private readonly redrawings = new MutationObserver(() => this.watch());

  connectedCallback(): void {
    this.redrawings.observe(this, { childList: true });
    this.watch();
  }

  disconnectedCallback(): void {
    this.redrawings.disconnect();
    this.sizes.disconnect();
  }

  /** The content of a figure is another table after it was drawn again. */
  private watch(): void {
    this.sizes.disconnect();
    this.sizes.observe(this);
    for (const child of this.children) this.sizes.observe(child);
  }

  private offerFocus(): void {
    if (this.scrollWidth > this.clientWidth) this.tabIndex = 0;
    else this.removeAttribute('tabindex');
  }
}

customElements.define('scroll-box', ScrollBox);

/** The element that holds the drawing of a figure: its box, or the figure itself where its drawing needs none. */
export const drawingHolder = (figure: HTMLElement): HTMLElement =>
  figure.querySelector<HTMLElement>(':scope > scroll-box') ?? figure;
