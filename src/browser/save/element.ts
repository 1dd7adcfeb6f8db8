/** The menu of files under a block: its list and what makes the files are loaded when it is first opened. */
class SaveMenu extends HTMLElement {
  connectedCallback(): void {
    const details = this.querySelector('details');
    const failed = this.querySelector<HTMLElement>('[role=alert]');
    const load = async (): Promise<void> => {
      if (!details?.open || this.querySelector('ul')) return;
      if (failed) failed.hidden = true;
      try {
        const { fillMenu } = await import('./menu.ts');
        if (!this.querySelector('ul')) fillMenu(details);
      } catch {
        // Opened again, it tries again.
        details.open = false;
        if (failed) failed.hidden = false;
      }
    };
    details?.addEventListener('toggle', () => void load());
  }
}

customElements.define('reedway-save', SaveMenu);
